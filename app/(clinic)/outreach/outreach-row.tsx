import Link from "next/link"
import type { Caller } from "../../../lib/access/caller"
import type { Settings } from "../../../lib/domain/settings"
import { differingKey } from "../../../lib/outreach/between-two"
import { count } from "../../../lib/speech/format"
import { belowWords, hereWords } from "../../../lib/speech/outreach-row-words"
import { reasonParts } from "../../../lib/speech/outreach-words"
import { fullName } from "../../../lib/speech/person-name"
import { ButtonLink } from "../../_ui/button"
import type { CaseWorker } from "../../../lib/store/case-workers"
import { CaseForms } from "./case-forms"
import { formCase } from "./form-case"
import { Standing } from "./outreach-standing"
import type { RowOfList } from "./rows-with-people"
import styles from "./outreach.module.css"

type RowProps = {
  row: RowOfList
  /** The row shown before, of the same kind or not. */
  above: RowOfList | null
  /** Where it stands on the list; an urgent row has no place. */
  place: number | null
  settings: Settings
  caller: Caller
  workers: readonly CaseWorker[]
  on: string
  timeZone: string
}

/** One person: all their reasons, how to reach them, what was tried, and why they stand here. */
export function OutreachRow({ row, above, place, settings, workers, ...seen }: RowProps) {
  const isUrgent = place === null
  return (
    <li className={isUrgent ? `${styles.row} ${styles.urgent}` : styles.row} data-row>
      <p className={styles.place}>{isUrgent ? <Urgent /> : count(place)}</p>
      <Who row={row} />
      <div className={styles.reasons}>
        <ul>
          {row.reasons.map((held) => {
            const { name, detail } = reasonParts(held, settings)
            return (
              <li key={held.reason}>
                <strong>{name}</strong> {detail}
              </li>
            )
          })}
        </ul>
        {row.one.case.closed === null ? <WhyHere row={row} above={above} /> : null}
      </div>
      <div className={styles.standing}>
        <Standing row={row} isUrgent={isUrgent} {...seen} />
      </div>
      <div className={styles.acts}>
        <ButtonLink href={`/outreach/people/${row.one.public_id}`}>Open</ButtonLink>
        <CaseForms
          of={formCase({
            ...{ one: row.one, caller: seen.caller, on: seen.on, name: fullName(row.person) },
            preferred: row.person?.preferred_contact ?? null,
          })}
          workers={workers}
        />
      </div>
    </li>
  )
}

function Urgent() {
  return (
    <>
      <span aria-hidden="true" className={styles.mark}>
        !
      </span>
      <span className={styles.markWord}>Urgent</span>
    </>
  )
}

function Who({ row: { one, person } }: { row: RowOfList }) {
  const age = person?.age_years ?? null
  const facts = [age === null ? null : String(age), person?.clinician_name ?? "no clinician", person?.site]
  return (
    <div>
      <h3 className={styles.name}>
        <Link href={`/outreach/people/${one.public_id}`} prefetch={false}>
          {fullName(person)}
        </Link>
      </h3>
      <p className={styles.soft}>{facts.filter(Boolean).join(", ")}</p>
    </div>
  )
}

function WhyHere({ row, above }: { row: RowOfList; above: RowOfList | null }) {
  return (
    <details className={styles.why}>
      <summary>Why here</summary>
      <p>{hereWords(row.facts)}</p>
      <p>
        {above === null
          ? "Nobody on this page stands above."
          : belowWords(differingKey(above.facts, row.facts), { above: above.facts, below: row.facts })}{" "}
        <a href="#order">How the order is made</a>
      </p>
    </details>
  )
}
