import type { Metadata } from "next"
import { recordedOnce } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen } from "../../../_ui/screen"
import { EmptyClinic } from "../../empty-clinic"
import { peopledSnapshot } from "../../snapshot"
import { letterRow } from "./letter-row"
import { LetterPages } from "./letter-pages"
import { LettersAfter, LettersAside } from "./letters-aside"
import { dueLetters } from "./letters-answers"
import { filesFor } from "./files-for"
import { LettersForm } from "./letters-form"
import { parseLettersView } from "./search-params"

export const metadata: Metadata = { title: "Letters" }

/** Rows of one page. */
const pageSize = 50

export default async function LettersPage(props: PageProps<"/outreach/letters">) {
  const caller = await requireScreenUser("outreach.work")
  const view = parseLettersView(await props.searchParams)
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const now = new Date()
  const answers = await dueLetters({ snapshot, now, after: view.after ?? 0, limit: pageSize })
  const people = answers.letters.map(({ row }) => row.one.public_id)
  await recordedOnce(caller, { action: "letters.list", people })
  const files = filesFor(caller, now)
  return (
    <Screen aside={<LettersAside answers={answers} settings={snapshot.settings} />} after={<LettersAfter />}>
      <LettersForm rows={answers.letters.map(letterRow)} files={files} />
      <LetterPages answers={answers} view={view} files={files} />
    </Screen>
  )
}
