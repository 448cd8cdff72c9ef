declare module "@lhncbc/ucum-lhc" {
  type Conversion = { status: "succeeded" | "failed" | "error"; toVal: number | null; msg: string[] }

  export const UcumLhcUtils: {
    getInstance: () => {
      convertUnitTo: (
        fromUnit: string,
        value: number,
        toUnit: string,
        options?: { molecularWeight?: number; charge?: number; suggest?: boolean },
      ) => Conversion
    }
  }
}
