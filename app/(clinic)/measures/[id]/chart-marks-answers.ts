import type { ChosenBaseline } from "../../../../lib/domain/chart-marks"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { baselineChoices } from "../../../../lib/figures/baseline"
import { placeNotes, type PlacedNote } from "../../../../lib/figures/note-places"
import { listChosenBaselines } from "../../../../lib/store/chart-baselines"
import { listChartNotes } from "../../../../lib/store/chart-notes"
import { store } from "../../../../lib/store/client"

/** What people wrote on a measure's charts. */
export type ChartMarksAnswers = {
  notes: PlacedNote[]
  chosenBaseline: ChosenBaseline | null
  /** The months from which a baseline may be taken. */
  choices: string[]
}

export async function askChartMarks(measureId: string, snapshot: SnapshotMeta): Promise<ChartMarksAnswers> {
  const [notes, baselines] = await Promise.all([
    listChartNotes(store(), measureId),
    listChosenBaselines(store()),
  ])
  return {
    notes: placeNotes(snapshot.asOfs, notes),
    chosenBaseline: baselines.get(measureId) ?? null,
    choices: baselineChoices(snapshot.asOfs),
  }
}
