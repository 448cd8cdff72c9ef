import type { Settings } from "../../../lib/domain/settings"
import type { OwnUrgent } from "../../../lib/questions/own-urgent"
import { count, day } from "../../../lib/speech/format"
import { reasonParts } from "../../../lib/speech/outreach-words"
import { PersonHead } from "../../_ui/person-head"
import { Theme } from "../../_ui/screen"
import { PeopleList } from "../people-list"
import people from "../people-list.module.css"
import styles from "./my-patients.module.css"

/** Whom something urgent holds for on the running day, whoever has seen it; nothing where it is nobody. */
export function UrgentPeople({ urgent, settings }: { urgent: readonly OwnUrgent[]; settings: Settings }) {
  if (urgent.length === 0) return null
  const publicIds = [...new Set(urgent.map((one) => one.public_id))]
  return (
    <Theme title="Urgent" id="urgent" note={settings["outreach.urgentText"]}>
      <PeopleList
        caption="People for whom something is urgent"
        heads={["Person", "What is urgent"]}
        columns={styles.changed}
      >
        {publicIds.map((publicId) => (
          <UrgentRow
            key={publicId}
            reasons={urgent.filter((one) => one.public_id === publicId)}
            settings={settings}
          />
        ))}
      </PeopleList>
    </Theme>
  )
}

function UrgentRow({ reasons, settings }: { reasons: OwnUrgent[]; settings: Settings }) {
  const [person] = reasons
  if (!person) return null
  const visit = person.next_visit_on === null ? "no visit booked" : `next visit ${day(person.next_visit_on)}`
  return (
    <tr role="row" className={people.severe}>
      <PersonHead person={person} month={null}>
        <p className={people.soft}>
          {count(person.age_years)} years, {visit}
        </p>
      </PersonHead>
      <td role="cell">
        <ul>
          {reasons.map((one) => {
            const fact = { factOn: one.fact_on, value: one.value, secondValue: one.second_value }
            const { name, detail } = reasonParts(
              { reason: one.reason, ...fact, comparator: one.comparator, fallsOutOn: null },
              settings,
            )
            return (
              <li key={one.reason}>
                <strong className={people.severeWords}>{name}</strong> {detail}
              </li>
            )
          })}
        </ul>
      </td>
    </tr>
  )
}
