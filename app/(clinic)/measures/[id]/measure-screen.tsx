import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { recordedOnce } from "../../../_http/recorded"
import { Screen, Theme } from "../../../_ui/screen"
import { CountsOnly } from "./counts-only"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import type { WordedMeasure } from "../../../../lib/measures/types"
import type { ChosenMonth } from "../../months"
import type { MeasureView } from "../search-params"
import { askMeasure } from "./measure-answers"
import { ChartMarks } from "./chart-marks"
import { askChartMarks } from "./chart-marks-answers"
import { MeasureAction } from "./measure-action"
import { MeasureAside } from "./measure-aside"
import { MeasureBasis } from "./measure-basis"
import { MeasureDecision } from "./measure-decision"
import { MeasureGroups } from "./measure-groups"
import { MeasureHistory } from "./measure-history"
import { MeetingLog } from "./meeting-log"
import { MeasureSinceClosing } from "./measure-since-closing"
import { MonthTable } from "./month-table"
import { PeopleList } from "./people-list"

/** One measure: its history, the people in each standing, its groups, and every month's counts. */
export async function MeasureScreen(props: {
  caller: Caller
  measure: WordedMeasure
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { caller, measure, snapshot, chosen, view } = props
  const isPeopleShown = may(caller, "people.see")
  const marks = await askChartMarks(measure.id, snapshot)
  const answers = await askMeasure({
    ...{ measure, snapshot, chosen, view, isPeopleShown },
    chosenBaseline: marks.chosenBaseline,
  })
  const people = answers.people.map((person) => person.public_id)
  if (isPeopleShown)
    await recordedOnce(caller, { action: "patients.list", object: "measure", objectId: measure.id, people })
  return (
    <Screen aside={<MeasureAside {...{ measure, snapshot, chosen, isPeopleShown }} />}>
      <MeasureHistory
        figure={answers.figure}
        month={chosen.param}
        startDays={answers.startDays}
        notes={marks.notes}
      />
      <ChartMarks caller={caller} measureId={measure.id} marks={marks} hasBaseline={measure.fact !== null} />
      <MeasureAction measure={measure} />
      <MeetingLog caller={caller} measureId={measure.id} chosen={chosen} />
      <Theme id="decided" title="How it is decided">
        <MeasureDecision answers={answers} chosen={chosen} />
        <MeasureBasis measure={measure} />
      </Theme>
      <Theme id="people" title="People">
        {isPeopleShown ? (
          <PeopleList caller={caller} measure={measure} answers={answers} chosen={chosen} view={view} />
        ) : (
          <CountsOnly />
        )}
      </Theme>
      <MeasureSinceClosing {...{ caller, measure, chosen }} figure={answers.figure} />
      <Theme
        id="groups"
        title="Groups"
        note="By name, not by result. Groups are of different people, and nothing here is adjusted for that: case mix is out of scope. A wide interval is few people; of many groups some differ by chance."
      >
        <MeasureGroups
          figure={answers.figure}
          groups={answers.groups}
          month={chosen.param}
          smallest={isPeopleShown ? null : snapshot.settings["reports.smallestGroup"]}
        />
      </Theme>
      <Theme id="months" title="Every month">
        <MonthTable figure={answers.figure} />
      </Theme>
    </Screen>
  )
}
