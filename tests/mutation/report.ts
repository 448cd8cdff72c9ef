import path from "node:path"
import { reasonFor, type Accepted } from "./accepted"
import type { PlacedMutant } from "./targets"

export type Verdict = { mutant: PlacedMutant; by: string | null }

export const leastShare = 0.95

/** Killed of all by folder, the survivors with their reasons, and whether that is enough. */
export function reportOf(
  verdicts: readonly Verdict[],
  accepted: Accepted,
): { lines: string[]; isEnough: boolean } {
  const survivors = verdicts.filter((verdict) => verdict.by === null).map((verdict) => verdict.mutant)
  const unexplained = survivors.filter((mutant) => reasonFor(accepted, mutant) === undefined)
  const folders = [...new Set(verdicts.map(({ mutant }) => path.dirname(mutant.target.file)))]
  const lines = [
    ...folders.map((folder) =>
      countLine(
        folder,
        verdicts.filter(({ mutant }) => path.dirname(mutant.target.file) === folder),
      ),
    ),
    countLine("together", verdicts),
    ...survivors.map(
      (mutant) => `${mutant.id}   ${reasonFor(accepted, mutant) ?? `no reason written: ${mutant.lineText}`}`,
    ),
  ]
  return { lines, isEnough: unexplained.length === 0 && shareKilled(verdicts) >= leastShare }
}

function countLine(name: string, verdicts: readonly Verdict[]): string {
  const killed = verdicts.filter((verdict) => verdict.by !== null).length
  return `${name}: ${killed} of ${verdicts.length} killed (${(100 * shareKilled(verdicts)).toFixed(1)}%)`
}

function shareKilled(verdicts: readonly Verdict[]): number {
  return verdicts.length === 0
    ? 1
    : verdicts.filter((verdict) => verdict.by !== null).length / verdicts.length
}
