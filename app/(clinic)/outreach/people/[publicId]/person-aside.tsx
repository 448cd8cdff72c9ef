import Link from "next/link"
import type { PersonToContact } from "../../../../../lib/questions/person-to-contact"
import { day } from "../../../../../lib/speech/format"
import { fullName } from "../../../../../lib/speech/person-name"
import { contactWords } from "../../../../../lib/speech/outreach-row-words"
import { AsidePart, ScreenTitle } from "../../../../_ui/screen"
import type { ShownCase } from "./person-answers"
import styles from "./person.module.css"

/** Who it is, how to reach them, and the next visit. */
export function PersonAside({ person, shown }: { person: PersonToContact; shown: ShownCase | null }) {
  const facts = [
    person.age_years === null ? null : String(person.age_years),
    person.clinician_name ?? "no clinician",
    person.site,
  ]
  return (
    <>
      <ScreenTitle title={fullName(person)} size="small">
        {facts.filter(Boolean).join(", ")}
      </ScreenTitle>
      <AsidePart title="How to contact">
        {shown?.kept.one.case.keptFrom ? <p>Not to be contacted: {shown.kept.one.case.keptFrom}.</p> : null}
        <p>{contactWords(person)}</p>
        <dl className={styles.ways}>
          <dt>Phone</dt>
          <dd>{person.phone ?? "not on record"}</dd>
          <dt>E-mail</dt>
          <dd>{person.email ?? "not on record"}</dd>
        </dl>
      </AsidePart>
      <AsidePart title="Next visit">
        <NextVisit shown={shown} />
      </AsidePart>
      <AsidePart>
        <ul className={styles.links}>
          <li>
            <Link href={`/patients/${person.public_id}`} prefetch={false}>
              The patient
            </Link>
          </li>
          <li>
            <Link href="/outreach">People to contact</Link>
          </li>
        </ul>
      </AsidePart>
    </>
  )
}

function NextVisit({ shown }: { shown: ShownCase | null }) {
  const visitOn = shown?.kept.one.next_visit_on ?? null
  if (visitOn === null) return <p>None known.</p>
  if (!shown?.kept.isBookedSoon) return <p>{day(visitOn)}</p>
  return (
    <p>
      {day(visitOn)}. What is to be done stands on{" "}
      <Link href={`/outreach/visits?on=${visitOn}`} prefetch={false}>
        the list of that day
      </Link>
      ; a call is not needed.
    </p>
  )
}
