/** Every constant of the vessels. */
import { arteryConstants } from "./artery-constants.js";
import { bedConstants } from "./bed-constants.js";
import { digitConstants } from "./digit-constants.js";

export const constants = { ...arteryConstants, ...bedConstants, ...digitConstants } as const;
