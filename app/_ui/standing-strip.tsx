import { numbered } from "../../lib/speech/format"
import type { StandingLook } from "../../lib/speech/measure-words"
import { PeopleLink } from "./people-link"
import { placed } from "./placed"
import styles from "./standing-strip.module.css"

export type StripPart = { words: string; number: number; look: StandingLook; href: string | null }

/** Where people stand, as one thin strip, with each count in words under it; a part of nobody has words alone. */
export function StandingStrip({ parts }: { parts: StripPart[] }) {
  const present = parts.filter((part) => part.number > 0)
  if (parts.length === 0) return null
  return (
    <div>
      <div className={styles.strip} aria-hidden="true">
        {present.map((part) => (
          <span key={part.words} className={styles[part.look]} {...placed({ "flex-grow": part.number })} />
        ))}
      </div>
      <ul className={styles.key}>
        {parts.map((part) => (
          <li key={part.words}>
            <span className={`${styles.swatch} ${styles[part.look]}`} aria-hidden="true" />
            <StripCount part={part} />
          </li>
        ))}
      </ul>
    </div>
  )
}

function StripCount({ part }: { part: StripPart }) {
  const words = numbered(part.number, part.words)
  if (part.href === null) return <span>{words}</span>
  return (
    <PeopleLink href={part.href} number={part.number}>
      {words}
    </PeopleLink>
  )
}
