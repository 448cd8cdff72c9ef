import Link from "next/link"
import type { Settings } from "../../../../lib/domain/settings"
import { inClinicsOrder } from "../../../../lib/outreach/between-two"
import { standingOf } from "../../../../lib/outreach/case-standing"
import { standingWords } from "../../../../lib/speech/case-words"
import { sentenceCase } from "../../../../lib/speech/format"
import type { PatientStatementRows } from "../../../../lib/questions/patient-statement-rows"
import { attemptsWords } from "../../../../lib/speech/outreach-row-words"
import { reasonWords } from "../../../../lib/speech/outreach-words"
import type { ListedCase } from "../../../../lib/store/case-list"
import { SourceLinks } from "./source-links"
import { reasonSources } from "./statement-sources"
import styles from "./to-contact.module.css"

/** Why this person is to be contacted as of today, whose it is and what was tried; nothing where there never was a case. */
export function ToContact(props: {
  one: ListedCase
  behind: readonly PatientStatementRows[]
  settings: Settings
  on: string
}) {
  const { one, behind, settings, on } = props
  const reasons = inClinicsOrder(one.case.reasons, settings)
  const whose = one.case.assignedTo === null ? "nobody yet" : (one.assigned_name ?? "an account that is gone")
  return (
    <section className={styles.contact} aria-labelledby="to-contact">
      <h2 id="to-contact">Outreach: {standingWords(standingOf(one.case, on))}</h2>
      {reasons.length === 0 ? null : (
        <ul>
          {reasons.map((held) => (
            <li key={held.reason}>
              {reasonWords(held, settings)} <SourceLinks sources={reasonSources(behind, held)} />
            </li>
          ))}
        </ul>
      )}
      <p className={styles.work}>
        {one.case.closed === null
          ? `${sentenceCase(`assigned to ${whose}`)}. ${attemptsWords(one.tried)}. `
          : null}
        <Link href={`/outreach/people/${one.public_id}`} prefetch={false}>
          The case
        </Link>
      </p>
    </section>
  )
}
