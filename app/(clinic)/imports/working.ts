import type { ImportEntry } from "../../../lib/store/imports"
import type { BuildEntry } from "../../../lib/store/snapshot-builds"

/** Whether an import or the figures are under way, so that the screen looks again. */
export function isWorking(answers: {
  imports: readonly ImportEntry[]
  build: BuildEntry | null
  isRefreshing: boolean
}): boolean {
  return (
    answers.isRefreshing ||
    answers.build?.status === "running" ||
    answers.imports.some((entry) => isUnderWay(entry))
  )
}

export function isUnderWay({ status }: ImportEntry): boolean {
  return status === "running" || status === "waiting"
}
