import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { recordedOnce } from "../../../_http/recorded"
import { CountsOnly } from "./counts-only"
import { Screen, Theme } from "../../../_ui/screen"
import { ask } from "../../../_http/ask"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { dietMonths } from "../../../../lib/questions/diet-months"
import { dietPeople } from "../../../../lib/questions/diet-people"
import { fewestForMean, dietFigure } from "../../../../lib/figures/diet-figure"
import { dietSignals } from "../../../../lib/figures/diet-signals"
import { dietShares } from "../../../../lib/figures/diet-shares"
import { meansFootnote, signalSentence } from "../../../../lib/figures/signal-words"
import { DietChart } from "../../diet-chart"
import { DietChange, DietWords } from "../../diet-words"
import { askDietSince } from "../../diet-since"
import { askDietToday } from "../../month-closing-answers"
import type { ChosenMonth } from "../../months"
import { rowsOfPage } from "../../search-params"
import type { MeasureView } from "../search-params"
import { ChartMarks } from "./chart-marks"
import { askChartMarks } from "./chart-marks-answers"
import { DietAside, DietConditions } from "./diet-aside"
import { DietRecords } from "./diet-records"
import { shownSeries } from "./diet-series"
import { DietSeriesCharts } from "../../diet-series-charts"
import { MeasureAction } from "./measure-action"
import { MeetingLog } from "./meeting-log"
import { pageSize } from "./measure-answers"
import styles from "./measure-history.module.css"

/** Diet sodium: a mean, not standings. Each series by itself, the shares of the series, and the records behind the month. */
export async function DietScreen(props: {
  caller: Caller
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { caller, snapshot, chosen, view } = props
  const isPeopleShown = may(caller, "people.see")
  const series = shownSeries(view)
  const page = rowsOfPage(view.page, pageSize)
  const [marks, rows, records, since, today] = await Promise.all([
    askChartMarks(dietSodium.id, snapshot),
    ask(dietMonths),
    isPeopleShown ? ask(dietPeople, { as_of: chosen.asOf, series, ...page }) : [],
    askDietSince(chosen),
    askDietToday(snapshot, chosen.asOf),
  ])
  const people = records.map((record) => record.public_id)
  if (isPeopleShown)
    await recordedOnce(caller, {
      action: "patients.list",
      object: "measure",
      objectId: dietSodium.id,
      people,
    })
  const figure = dietFigure(rows, snapshot.asOfs, chosen.asOf)
  const { chosenBaseline } = marks
  const signals = dietSignals({ series: figure.headline, chosen: figure.chosen, chosenBaseline })
  return (
    <Screen aside={<DietAside {...{ snapshot, chosen, isPeopleShown }} />} after={<DietConditions />}>
      <section className={styles.history} aria-label="History">
        <div className={styles.says}>
          <DietWords figure={figure} month={chosen.param} level={2} />
        </div>
        <div>
          <DietChart
            series={figure.headline}
            chosen={figure.chosen}
            size="full"
            signals={signals}
            notes={marks.notes}
          />
          <p>{signalSentence(signals, "down")}</p>
          {signals.judgement.ok ? <p className="fine soft">{meansFootnote(signals, fewestForMean)}</p> : null}
        </div>
        <div className={styles.change}>
          <DietChange figure={figure} since={since} today={today} size="full" />
        </div>
      </section>
      <ChartMarks caller={caller} measureId={dietSodium.id} marks={marks} hasBaseline />
      <MeasureAction measure={dietSodium} />
      <MeetingLog caller={caller} measureId={dietSodium.id} chosen={chosen} />
      <Theme id="series" title="The other ways of asking" note={dietShares(figure)}>
        <DietSeriesCharts figure={figure} />
      </Theme>
      <Theme id="people" title="Records of the month">
        {isPeopleShown ? (
          <DietRecords
            caller={caller}
            records={records}
            figure={figure}
            series={series}
            chosen={chosen}
            view={view}
          />
        ) : (
          <CountsOnly />
        )}
      </Theme>
    </Screen>
  )
}
