import Link from "next/link"
import type { ReactNode } from "react"
import type { Caller } from "../../../../../lib/access/caller"
import type { Settings } from "../../../../../lib/domain/settings"
import { attemptsRule, nextStep } from "../../../../../lib/outreach/attempts-rule"
import { standingOf } from "../../../../../lib/outreach/case-standing"
import { standingWords, stepWords } from "../../../../../lib/speech/case-words"
import { sentenceCase } from "../../../../../lib/speech/format"
import { attemptsWords } from "../../../../../lib/speech/outreach-row-words"
import { Theme } from "../../../../_ui/screen"
import { lettersHref } from "../../letters/search-params"
import type { ShownCase } from "./person-answers"
import styles from "./person.module.css"

type StandingProps = {
  shown: ShownCase
  settings: Settings
  caller: Caller
  today: string
  /** The forms of what can be done. */
  children?: ReactNode
}

/** Where the case stands, whose it is, what was tried and what comes next. */
export function CaseStanding({ shown, settings, caller, today, children }: StandingProps) {
  const { one, closedBy } = { ...shown.kept }
  const { assignedTo, acknowledgedBy, closed } = one.case
  const whose =
    assignedTo === caller.userId ? "this account" : (one.assigned_name ?? "an account that is gone")
  return (
    <Theme title="What is being done" id="standing">
      <dl className={styles.standing}>
        <dt>Stands</dt>
        <dd>
          {sentenceCase(standingWords(standingOf(one.case, today)))}
          {closed !== null && closedBy !== null ? `, by ${closedBy}` : null}
        </dd>
        <dt>Assigned to</dt>
        <dd>{assignedTo === null ? "nobody" : whose}</dd>
        <dt>Tried</dt>
        <dd>
          <Tried tried={one.tried} settings={settings} />
        </dd>
        {acknowledgedBy === null ? null : (
          <>
            <dt>Acknowledged by</dt>
            <dd>{one.acknowledged_name ?? "an account that is gone"}</dd>
          </>
        )}
      </dl>
      {children}
    </Theme>
  )
}

function Tried({ tried, settings }: { tried: ShownCase["kept"]["one"]["tried"]; settings: Settings }) {
  const step = nextStep(tried, attemptsRule(settings))
  if (tried.length === 0 || step === "try") return `${attemptsWords(tried)}.`
  const channels = new Set(tried.map((one) => one.channel)).size
  const words = `${attemptsWords(tried)}. ${stepWords({ attempts: tried.length, channels, step })}.`
  if (step !== "write a letter") return words
  return (
    <>
      {words}{" "}
      <Link href={lettersHref({})} prefetch={false}>
        Letters
      </Link>
    </>
  )
}
