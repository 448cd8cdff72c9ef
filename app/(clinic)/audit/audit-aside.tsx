import type { Caller } from "../../../lib/access/caller"
import { Button } from "../../_ui/button"
import { counted } from "../../../lib/speech/format"
import { Caution } from "../../_ui/notice"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { instantInFull } from "../imports/import-words"
import { ListDownload } from "../list-download"
import { verifyNow } from "./actions"
import type { AuditAnswers } from "./audit-answers"
import styles from "./audit.module.css"
import { auditFileHref, isFiltered, type AuditView } from "./search-params"

/** Whether the log is whole, what of it is shown, and the lists to look at first. */
export function AuditAside(props: { caller: Caller; answers: AuditAnswers; view: AuditView }) {
  const { caller, answers, view } = props
  const { total, review } = answers
  const lists = [
    { href: "#busy", words: `${counted(review.busy.length, "day", "days")} above the own median` },
    {
      href: "#hours",
      words: `${counted(review.afterHours.length, "account", "accounts")} outside working hours`,
    },
    { href: "#files", words: `${counted(review.taken.length, "account", "accounts")} with files of people` },
  ]
  return (
    <>
      <ScreenTitle title="Audit log">
        {counted(total, "entry", "entries")}
        {isFiltered(view) ? " of those asked for" : ""}, latest first.
      </ScreenTitle>
      <AsidePart title="State of the log">
        <State answers={answers} />
        <form action={verifyNow} className={styles.verify}>
          <Button type="submit">Verify now</Button>
        </form>
      </AsidePart>
      {view.patient === null ? (
        <AsidePart title="Looked at first">
          <ul className={styles.lists}>
            {lists.map((one) => (
              <li key={one.href}>
                <a href={one.href}>{one.words}</a>
              </li>
            ))}
          </ul>
        </AsidePart>
      ) : null}
      <AsidePart>
        <ListDownload caller={caller} needs="audit.see" place="audit" href={auditFileHref(view)}>
          Download {counted(total, "entry", "entries")}
        </ListDownload>
      </AsidePart>
    </>
  )
}

function State({ answers }: { answers: AuditAnswers }) {
  const { check, timeZone } = answers
  if (check === null) return <p>It has not been verified yet; every night at two it is.</p>
  const when = instantInFull(check.at, timeZone)
  if (check.isWhole)
    return (
      <p>
        Whole when it was last verified, {when}: {counted(check.entries, "entry", "entries")}, none altered,
        missing or moved.
      </p>
    )
  return (
    <Caution>
      <p>
        {check.fault ?? "The audit log is broken."} Verified {when}.
      </p>
    </Caution>
  )
}
