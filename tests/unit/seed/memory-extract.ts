import { factKinds, type FactKind } from "../../../lib/domain/fact-kinds"
import { extractColumns, type Row } from "../../../seed/extract-columns"
import { lineOf, type ExtractWriter } from "../../../seed/extract-writer"

/** An extract kept in memory: the same lines in the same order as in the files, without a byte order mark. */
export type MemoryExtract = ExtractWriter & { texts: () => Record<string, string> }

export function openMemoryExtract(): MemoryExtract {
  const linesByFile = new Map<FactKind, string[]>(factKinds.map((kind) => [kind, []]))
  const lateByFile = new Map<FactKind, string[]>(factKinds.map((kind) => [kind, []]))
  const linesOf = (kind: FactKind) => linesByFile.get(kind) ?? []

  return {
    write: <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => {
      linesOf(kind).push(lineOf(kind, row))
    },
    writeLate: <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => {
      lateByFile.get(kind)?.push(lineOf(kind, row))
    },
    writeLine: (kind, line) => {
      linesOf(kind).push(line)
    },
    close: () => {
      for (const kind of factKinds) linesOf(kind).push(...(lateByFile.get(kind) ?? []))
      const count = (kind: FactKind) => linesOf(kind).length
      return {
        staff: count("staff"),
        patients: count("patients"),
        visits: count("visits"),
        appointments: count("appointments"),
        readings: count("readings"),
        labs: count("labs"),
        medications: count("medications"),
        problems: count("problems"),
        allergies: count("allergies"),
        diet: count("diet"),
      }
    },
    texts: () =>
      Object.fromEntries(
        factKinds.map((kind) => [
          `${kind}.csv`,
          [extractColumns[kind].join(","), ...linesOf(kind)].join("\n") + "\n",
        ]),
      ),
  }
}
