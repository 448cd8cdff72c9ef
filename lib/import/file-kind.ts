import type { FactKind } from "../domain/fact-kinds"
import type { LedgerValue } from "../domain/ledgers"
import type { Day } from "./calendar"
import type { Cells } from "./cells"
import type { LabCodes } from "./lab-codes"

/** What the reading of a row may need to know, and the list of things worth telling that it adds to. */
export type ReadContext = { importDay: Day; labCodes: LabCodes; remarks: Remarks }

/** What a row that is kept nevertheless makes worth telling. */
export type Remarks = { unlistedLoinc: string | null; isUnitOdd: boolean; isTestPatient: boolean }

/** One of the ten files: its columns, and how a row becomes a fact. */
export type FileKind = {
  readonly kind: FactKind
  readonly required: readonly string[]
  readonly optional: readonly string[]
  /**
   * The values of the fact in the order of the ledger's columns, after telling `cells` which fact it is. Null when the row
   * only names the fact (a retraction) or is known to be bad.
   */
  readonly read: (cells: Cells, context: ReadContext) => readonly LedgerValue[] | null
}
