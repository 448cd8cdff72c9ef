import Link from "next/link"
import { count, dayOfYear, weekday } from "../../../lib/speech/format"
import type { SavedView } from "../../../lib/store/outreach-views"
import { CountList } from "../../_ui/count-list"
import { PeopleLink } from "../../_ui/people-link"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import type { OutreachAnswers } from "./outreach-answers"
import { SavedViews } from "./saved-views"
import { TakeNextForm } from "./take-next-form"
import styles from "./outreach.module.css"
import { outreachHref, type OutreachView } from "./search-params"

/** The day in words, how many are to be contacted, and how many stand on the lists beside it. */
export function OutreachAside({ answers }: { answers: OutreachAnswers }) {
  const { counts, on, since } = answers
  const rows = [
    { number: counts.mine, words: "mine", href: outreachHref({ whose: "mine" }) },
    { number: counts.nobodys, words: "nobody’s yet", href: outreachHref({ whose: "nobody" }) },
    {
      ...{ number: counts.closed_itself, words: `closed by themselves since ${weekday(since)}` },
      href: outreachHref({ show: "closed-itself" }),
    },
    {
      ...{ number: counts.booked_soon, words: "booked soon: on the visit lists" },
      href: outreachHref({ show: "booked" }),
    },
    { number: counts.asked_not, words: "asked not to be contacted", href: null },
  ]
  return (
    <>
      <ScreenTitle title={`${weekday(on)} ${dayOfYear(on)}`}>
        <p>
          {count(counts.to_contact)} {counts.to_contact === 1 ? "person" : "people"} to contact today,{" "}
          <PeopleLink href={outreachHref({ show: "urgent" })} number={counts.urgent}>
            {count(counts.urgent)} urgent
          </PeopleLink>
          .{" "}
          <PeopleLink href={outreachHref({ show: "waiting" })} number={counts.waiting}>
            {count(counts.waiting)} {counts.waiting === 1 ? "waits" : "wait"}
          </PeopleLink>{" "}
          for the next try.
        </p>
      </ScreenTitle>
      <AsidePart>
        <CountList rows={rows} />
      </AsidePart>
      <AsidePart>
        <TakeNextForm />
      </AsidePart>
    </>
  )
}

const ways = [
  { href: "/outreach/visits", name: "Visit lists" },
  { href: "/outreach/letters", name: "Letters" },
  { href: "/outreach/effect", name: "Did it work?" },
  { href: outreachHref({ show: "closed" }), name: "Closed cases" },
  { href: "/settings/outreach", name: "Reasons and their order" },
] as const

/** The lists somebody comes back to, and how else to see the work. */
export function OutreachAfter({ views, view }: { views: readonly SavedView[]; view: OutreachView }) {
  return (
    <>
      <AsidePart title="Lists">
        <SavedViews views={views} view={view} />
      </AsidePart>
      <AsidePart title="Beside the list">
        <ul>
          {ways.map(({ href, name }) => (
            <li key={href}>
              <Link href={href} prefetch={false} className={styles.way}>
                {name}
              </Link>
            </li>
          ))}
        </ul>
      </AsidePart>
    </>
  )
}
