/** What a bedside oximeter would show from the same light. */
export { displayConstants } from "./constants.js";
export {
  createDisplay,
  type Display,
  type DisplayMessage,
  type DisplayOptions,
  displayMessages,
} from "./display.js";
