/** The version of package.json, put in when the program is built. */
declare const LIMBTIDE_VERSION: string | undefined;

export const version: string = typeof LIMBTIDE_VERSION === "string" ? LIMBTIDE_VERSION : "not built";
