/** The parts of verovio's package that are used; it ships no types. */
declare module "verovio/wasm" {
  export default function createVerovioModule(options: {
    readonly print: (text: string) => void;
    readonly printErr: (text: string) => void;
  }): Promise<object>;
}

declare module "verovio/esm" {
  export const LOG_OFF: number;
  export function enableLog(level: number, module: object): void;
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): boolean;
    renderToSVG(page: number): string;
    renderToTimemap(options?: Readonly<Record<string, unknown>>): readonly TimemapEntry[];
    getPageCount(): number;
    destroy(): void;
  }
  export interface TimemapEntry {
    /** Milliseconds and quarters from the start. */
    readonly tstamp: number;
    readonly qstamp: number;
    readonly on?: readonly string[];
    readonly off?: readonly string[];
    readonly restsOn?: readonly string[];
  }
}
