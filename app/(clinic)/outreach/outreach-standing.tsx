import type { Caller } from "../../../lib/access/caller"
import { day } from "../../../lib/speech/format"
import { attemptsWords, closingWords, contactWords } from "../../../lib/speech/outreach-row-words"
import { instantInFull } from "../imports/import-words"
import type { RowOfList } from "./rows-with-people"

type StandingProps = { row: RowOfList; isUrgent: boolean; caller: Caller; on: string; timeZone: string }

/** How to reach a person, what was tried, whose they are, and what is waited for. An urgent row says who is told instead. */
export function Standing({ row, isUrgent, caller, on, timeZone }: StandingProps) {
  const { one, person } = row
  const { assignedTo, snoozedUntil, againOn, closed } = one.case
  const own = assignedTo === caller.userId ? "this account" : (one.assigned_name ?? "another account")
  const isAwaited = againOn !== null && againOn > on
  return (
    <>
      {isUrgent ? <Told row={row} timeZone={timeZone} /> : null}
      {person && !isUrgent ? <p>{contactWords(person)}</p> : null}
      {isUrgent && one.tried.length === 0 ? null : <p>{attemptsWords(one.tried)}</p>}
      {assignedTo === null ? null : <p>Assigned to {own}</p>}
      {snoozedUntil === null ? null : <p>Snoozed until {day(snoozedUntil)}</p>}
      {isAwaited ? <p>Next try {day(againOn)}</p> : null}
      {closed === null ? null : <p>{closingWords(closed)}</p>}
      {one.next_visit_on === null ? null : <p>Next visit {day(one.next_visit_on)}</p>}
    </>
  )
}

function Told({ row: { one, person }, timeZone }: { row: RowOfList; timeZone: string }) {
  const at = one.acknowledged_at
  const by = one.acknowledged_name ?? "an account that is gone"
  return (
    <>
      <p>For {person?.clinician_name ?? "the clinic’s lead: no clinician is named"}</p>
      <p>
        {one.case.acknowledgedBy === null
          ? "Not yet acknowledged"
          : `Acknowledged by ${by}${at === null ? "" : `, ${instantInFull(at, timeZone)}`}`}
      </p>
    </>
  )
}
