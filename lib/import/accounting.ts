import type { FileReport } from "../domain/import-report"

/** Every data row of a file is accounted for exactly once; anything else is a fault of the program and stops the import. */
export function assertAccounted(report: FileReport): void {
  const { file, dataRows, added, changed, unchanged, withdrawn, held, rejected } = report
  const accounted = added + changed + unchanged + withdrawn + held + rejected
  if (accounted !== dataRows)
    throw new RangeError(`${file} has ${dataRows} data rows, but ${accounted} are accounted for`)
}
