import type { Metadata } from "next"
import Link from "next/link"
import { count, counted } from "../../../../../lib/speech/format"
import { recordedOnce } from "../../../../_http/recorded"
import { requireScreenUser } from "../../../../_http/require-user"
import { EmptyClinic } from "../../../empty-clinic"
import { LetterText } from "../../../letter-text"
import { peopledSnapshot } from "../../../snapshot"
import { dueLetters } from "../letters-answers"
import { mostChosen, parseChosenLetters } from "../search-params"
import { PrintButton } from "./print-button"
import styles from "./sheets.module.css"

export const metadata: Metadata = { title: "Letters to print" }

export default async function LetterSheetsPage(props: PageProps<"/outreach/letters/sheets">) {
  const caller = await requireScreenUser("outreach.work")
  const { letters: ids } = parseChosenLetters(await props.searchParams)
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const asked = { snapshot, now: new Date(), limit: mostChosen }
  const { letters, total } = await dueLetters({ ...asked, ...(ids === null ? {} : { ids }) })
  const people = letters.map(({ row }) => row.one.public_id)
  await recordedOnce(caller, { action: "letters.open", people })
  const missing = ids === null ? 0 : new Set(ids).size - letters.length
  return (
    <div className={styles.sheets}>
      <header className={styles.head}>
        <h1>Letters to print</h1>
        <p>
          {total > letters.length ? `The first ${count(letters.length)} of ` : null}
          {counted(total, "letter", "letters")}, each on a sheet of its own; nothing else of this page is
          printed. {missing === 0 ? null : `${missingWords(missing)} `}
          <Link href="/outreach/letters" prefetch={false}>
            Back to the letters
          </Link>
          , to record them as sent.
        </p>
        {letters.length === 0 ? <p>A letter is next for nobody who was chosen.</p> : <PrintButton />}
      </header>
      {letters.map(({ row, name, letter }) => (
        <div key={row.one.id} className={styles.sheet}>
          <p className={styles.whose}>
            {name ?? "Name not on record"}, {row.one.patientId}
          </p>
          <LetterText letter={letter} label={`Letter to ${name ?? row.one.patientId}`} />
        </div>
      ))}
    </div>
  )
}

function missingWords(missing: number): string {
  return missing === 1
    ? "One of those chosen is left out: a letter is no longer next."
    : `${missing} of those chosen are left out: a letter is no longer next.`
}
