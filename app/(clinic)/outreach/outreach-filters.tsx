import Link from "next/link"
import type { Settings } from "../../../lib/domain/settings"
import { withSettings } from "../../../lib/domain/setting-words"
import { reasons } from "../../../lib/outreach/reasons"
import { reasonList } from "../../../lib/domain/reason-ids"
import { languageName } from "../../../lib/speech/format"
import { Button } from "../../_ui/button"
import { KeysHelp, type ListKey } from "../keys-help"
import type { OutreachAnswers } from "./outreach-answers"
import styles from "./outreach-filters.module.css"
import { isNarrowed, outreachHref, wholeDay, type OutreachView } from "./search-params"

const lists: Readonly<Record<OutreachView["show"], string>> = {
  today: "To contact today",
  urgent: "Urgent",
  waiting: "Waiting or snoozed",
  booked: "Booked soon",
  closed: "Closed",
  "closed-itself": "Closed by themselves",
}

const keys: readonly ListKey[] = [
  ["L", "records an attempt"],
  ["S", "snoozes"],
  ["T", "takes the next one nobody has"],
]

type FiltersProps = { answers: OutreachAnswers; view: OutreachView; settings: Settings }

/** What the list is narrowed by; it stands in the address, and works without scripts. */
export function OutreachFilters({ answers, view, settings }: FiltersProps) {
  const { counts } = answers
  const off = reasonList(settings["outreach.reasonsOff"])
  const names = reasons
    .filter((one) => !off.includes(one.id))
    .map((one) => [one.id, withSettings(one.name, settings)] as const)
  const people = counts.accounts
    .toSorted((one, other) => one.name.localeCompare(other.name))
    .map((one) => [one.id, one.name] as const)
  return (
    <form action="/outreach" className={styles.filters} role="search" aria-label="People to contact">
      <Choice label="List" name="show" chosen={view.show} options={Object.entries(lists)} />
      <Choice label="Reason" name="reason" chosen={view.reason} any="All reasons" options={names} />
      <Choice label="Site" name="site" chosen={view.site} any="All sites" options={alike(counts.sites)} />
      <Choice
        {...{ label: "Clinician", name: "clinician", chosen: view.clinician, any: "Any clinician" }}
        options={alike(counts.clinicians)}
      />
      <Choice
        {...{ label: "Assigned to", name: "whose", chosen: view.whose, any: "Anybody or nobody" }}
        options={[["mine", "This account"], ["nobody", "Nobody yet"], ...people]}
      />
      <Choice
        {...{ label: "Language", name: "language", chosen: view.language, any: "Any language" }}
        options={counts.languages.map((tag) => [tag, languageName(tag)] as const)}
      />
      <span className={styles.acts}>
        <Button type="submit">Show</Button>
        {isNarrowed(view) || view.show !== wholeDay.show ? (
          <Link href={outreachHref({})} prefetch={false}>
            Everyone’s day
          </Link>
        ) : null}
        <KeysHelp keys={keys} />
      </span>
    </form>
  )
}

function alike(names: readonly string[]) {
  return names.map((name) => [name, name] as const)
}

type ChoiceProps = {
  label: string
  name: string
  chosen: string | null
  any?: string
  options: readonly (readonly [string, string])[]
}

/** A value that the list has no more, as of an old address, is still told. */
function Choice({ label, name, chosen, any, options }: ChoiceProps) {
  const isKnown = chosen === null || options.some(([value]) => value === chosen)
  return (
    <label>
      {label}
      <select name={name} defaultValue={chosen ?? ""}>
        {any === undefined ? null : <option value="">{any}</option>}
        {isKnown ? null : <option value={chosen}>{name === "whose" ? "Another account" : chosen}</option>}
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </label>
  )
}
