export declare const howToGetOne: string;
export declare function findChromium(): string | null;
