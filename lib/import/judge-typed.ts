import type { Hash128 } from "../domain/hash128"
import type { LedgerValue } from "../domain/ledgers"
import type { CheckContext } from "./check-row"
import { sniffEncoding } from "./encoding"
import { fileKinds } from "./file-kinds"
import { readFile } from "./read-file"
import { firstTypedLine, typedSource, type TypedRows } from "./typed-source"

/** Why one of the rows is not taken: its place from 0, the column of the contract, and what to do. */
export type TypedProblem = { row: number; column: string | null; message: string }

/** A row that can be taken: the values in the order of the ledger's columns. */
export type TypedFact = { row: number; key: Hash128; values: readonly LedgerValue[] }

/** Judges typed rows as an import would, without storing anything: the same reader, the same limits, the same words. */
export async function judgeTyped(
  typed: TypedRows,
  context: CheckContext,
): Promise<{ problems: TypedProblem[]; facts: TypedFact[] }> {
  const problems: TypedProblem[] = []
  const facts: TypedFact[] = []
  const rowOf = (line: number) => line - firstTypedLine
  for (const file of typedSource(typed).files) {
    const tally = await readFile({
      fileKind: fileKinds[file.kind],
      chunks: await file.open(),
      encoding: await sniffEncoding(await file.open()),
      context,
      sink: {
        good: ({ line, key, values }) => facts.push({ row: rowOf(line), key, values }),
        retracted: () => {},
        rejected: ({ line, problem: { column, message } }) =>
          problems.push({ row: rowOf(line), column, message }),
        drain: async () => {},
      },
      onBytes: () => {},
    })
    if (tally.fileProblem)
      problems.push({ row: 0, column: tally.fileProblem.column, message: tally.fileProblem.message })
  }
  return { problems, facts }
}
