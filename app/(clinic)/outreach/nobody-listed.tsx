import Link from "next/link"
import type { OutreachAnswers } from "./outreach-answers"
import styles from "./outreach.module.css"
import { isNarrowed, outreachHref, type OutreachView } from "./search-params"

/** Why a list has nobody, and where somebody is. */
export function NobodyListed({ answers, view }: { answers: OutreachAnswers; view: OutreachView }) {
  const { counts } = answers
  if (counts.cases === 0)
    return (
      <p className={styles.none}>
        Nobody has a reason to be contacted. Cases open when the figures are made: of an extract that is
        brought in, and each night. Which reasons are used stands in the{" "}
        <Link href="/settings/outreach" prefetch={false}>
          settings
        </Link>
        .
      </p>
    )
  if (isNarrowed(view))
    return (
      <p className={styles.none}>
        Nobody on this list matches all of it.{" "}
        <Link href={outreachHref({ show: view.show })} prefetch={false}>
          The whole list
        </Link>
      </p>
    )
  if (view.after !== null)
    return (
      <p className={styles.none}>
        The list ends before this place.{" "}
        <Link href={outreachHref({ ...view, after: null })} prefetch={false}>
          From the first
        </Link>
      </p>
    )
  return <p className={styles.none}>{emptyWords[view.show]}</p>
}

const emptyWords: Readonly<Record<OutreachView["show"], string>> = {
  today: "Nobody is to be contacted today. Who waits for a next try comes back on its day.",
  urgent: "Nothing urgent holds.",
  waiting: "Nobody waits for a next try, and nobody is snoozed.",
  booked: "Nobody with a reason has a visit booked soon.",
  closed: "No case is closed.",
  "closed-itself": "No case closed by itself in these days.",
}
