import type { Metadata } from "next"
import { requireScreenUser } from "../../_http/require-user"
import { dayOfYear, month } from "../../../lib/speech/format"
import { MonthList } from "../../_ui/month-list"
import { AsidePart, Screen, ScreenTitle } from "../../_ui/screen"
import { hrefOf } from "../../_ui/href"
import { EmptyClinic } from "../empty-clinic"
import { askMonth } from "../month-answers"
import { chooseMonth, monthChoices, underSettingsThen } from "../months"
import { parseMonthView } from "../search-params"
import { peopledSnapshot } from "../snapshot"
import { MeasureList } from "./measure-list"

export const metadata: Metadata = { title: "Measures" }

export default async function MeasuresPage({ searchParams }: PageProps<"/measures">) {
  await requireScreenUser("figures.see")
  const view = parseMonthView(await searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await askMonth(snapshot, chosen)
  const choices = monthChoices(snapshot, (one) => hrefOf("/measures", { month: one }))
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Measures">
            {month(chosen.month)},{" "}
            {chosen.isRunning ? `running, data through ${dayOfYear(chosen.asOf)}` : "complete"}.
          </ScreenTitle>
          <AsidePart>
            <MonthList choices={choices} chosen={chosen.month} />
          </AsidePart>
        </>
      }
    >
      <MeasureList answers={answers} chosen={chosen} />
    </Screen>
  )
}
