import type { FileReport, ImportQuestion } from "../domain/import-report"
import type { Settings } from "../domain/settings"

/** The facts of one kind that a full extract would withdraw, of those in force. */
export type Withdrawal = { file: string; withdrawn: number; inForce: number }

/**
 * The question a person must answer before the import may go on, or null when nothing looks odd: a file in which more than a
 * share of the rows, and at least so many, are rejected or held; a full extract that would withdraw more than a share of a
 * kind of fact.
 */
export function questionOf(
  files: readonly FileReport[],
  withdrawals: readonly Withdrawal[],
  settings: Settings,
): ImportQuestion | null {
  const limits = {
    rejectShare: settings["import.rejectShare"],
    rejectRows: settings["import.rejectRows"],
    withdrawShare: settings["import.withdrawShare"],
  }
  const rejects = files
    .filter(({ rejected, held, dataRows }) => {
      const unused = rejected + held
      return unused >= limits.rejectRows && unused > limits.rejectShare * dataRows
    })
    .map(({ file, dataRows, rejected, held }) => ({ file, dataRows, rejected, held }))
  const large = withdrawals.filter(({ withdrawn, inForce }) => withdrawn > limits.withdrawShare * inForce)
  return rejects.length + large.length === 0 ? null : { rejects, withdrawals: [...large], limits }
}
