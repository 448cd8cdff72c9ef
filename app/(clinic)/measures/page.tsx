import type { Metadata } from "next"
import { requireScreenUser } from "../../_http/require-user"
import { Screen, ScreenTitle } from "../../_ui/screen"
import { hrefOf } from "../../_ui/href"
import { EmptyClinic } from "../empty-clinic"
import { askMonth } from "../month-answers"
import { chooseMonth, chosenMonthWords, underSettingsThen } from "../months"
import { OtherMonths } from "../other-months"
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
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Measures">{chosenMonthWords(chosen)}</ScreenTitle>
          <OtherMonths {...{ snapshot, chosen }} hrefOf={(one) => hrefOf("/measures", { month: one })} />
        </>
      }
    >
      <MeasureList answers={answers} chosen={chosen} />
    </Screen>
  )
}
