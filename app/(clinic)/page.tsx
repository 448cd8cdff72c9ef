import type { Metadata } from "next"
import { requireScreenUser } from "../_http/require-user"
import { month } from "../../lib/speech/format"
import { Screen } from "../_ui/screen"
import { EmptyClinic } from "./empty-clinic"
import { MonthAside } from "./month-aside"
import { askMonth } from "./month-answers"
import { MeetingOpen } from "./meeting-open"
import { MonthDocuments } from "./month-documents"
import { MonthWhatIf } from "./month-what-if"
import { MonthThemes } from "./month-themes"
import { chooseMonth, underSettingsThen } from "./months"
import { parseMonthView } from "./search-params"
import { currentSnapshot, peopledSnapshot } from "./snapshot"

export async function generateMetadata({ searchParams }: PageProps<"/">): Promise<Metadata> {
  const snapshot = await currentSnapshot()
  if (!snapshot) return {}
  return { title: month(chooseMonth(snapshot, parseMonthView(await searchParams).month).month) }
}

export default async function MonthPage({ searchParams }: PageProps<"/">) {
  const caller = await requireScreenUser("figures.see")
  const view = parseMonthView(await searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await askMonth(snapshot, chosen)
  return (
    <Screen
      aside={<MonthAside caller={caller} snapshot={snapshot} chosen={chosen} counts={answers.counts} />}
      after={<MonthDocuments caller={caller} chosen={chosen} />}
    >
      <MeetingOpen
        chosen={chosen}
        actions={answers.actions}
        today={answers.clinicToday}
        timeZone={snapshot.timeZone}
      />
      <MonthWhatIf settings={current.settings} />
      <MonthThemes chosen={chosen} answers={answers} />
    </Screen>
  )
}
