/** One limb from the aorta to the light. */
export { constants } from "./constants.js";
export { type Recruitment, usualPerson, type VesselPerson } from "./person.js";
export { type Place, places } from "./places.js";
export { createVessels, type Hand, hands, type Vessels, type VesselsOptions } from "./vessels.js";
