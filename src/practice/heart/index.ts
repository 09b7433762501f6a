/** The heart and the root of its arteries. */
export { constants as heartConstants } from "./constants.js";
export {
  checkPressures,
  createHeart,
  Heart,
  type HeartSettings,
  heartStreams,
  type UsualBeat,
} from "./heart.js";
