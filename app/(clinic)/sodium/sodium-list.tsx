import { counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Pager } from "../../_ui/pager"
import { Theme } from "../../_ui/screen"
import type { ChosenMonth } from "../months"
import { Narrowed, PeopleList } from "../people-list"
import list from "../people-list.module.css"
import { PersonRow } from "./person-row"
import styles from "./sodium.module.css"
import { sodiumHref, type SodiumView } from "./search-params"
import { pageSize, type SodiumAnswers } from "./sodium-answers"
import { shownList } from "./sodium-lists"

const heads = ["Person", "Sodium", "Pressure", "Drug classes", "Risk, visits"] as const

/** The people of the list that is asked for, a page at a time, with the words for the rule and the order. */
export function SodiumList(props: { answers: SodiumAnswers; view: SodiumView; chosen: ChosenMonth }) {
  const { answers, view, chosen } = props
  const { people } = answers
  const shown = shownList(view.list)
  const total = people[0]?.total ?? 0
  return (
    <Theme id="people" title={sentenceCase(shown.words)}>
      <div className={styles.order}>
        {view.list === null ? null : (
          <Narrowed href={sodiumHref({ month: view.month }, "people")}>{sentenceCase(shown.words)}</Narrowed>
        )}
        {people.length === 0 ? (
          <p className={list.none}>
            {view.page === null
              ? `No one whom you may see is on this list on ${dayInFull(chosen.asOf)}.`
              : "The list is not that long."}
          </p>
        ) : (
          <p className={list.order}>
            {counted(answers.counts[shown.count], "person", "people")}. {shown.order}
          </p>
        )}
      </div>
      {people.length === 0 ? null : (
        <>
          <PeopleList caption={`People ${shown.words}`} heads={heads} columns={styles.people}>
            {people.map((person) => (
              <PersonRow key={`${person.public_id} ${person.series}`} person={person} chosen={chosen} />
            ))}
          </PeopleList>
          <div className={list.foot}>
            <Pager
              page={view.page}
              size={pageSize}
              total={total}
              hrefOf={(page) => sodiumHref({ ...view, page }, "people")}
            />
          </div>
        </>
      )}
    </Theme>
  )
}
