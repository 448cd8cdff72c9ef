import type { ReactNode } from "react"
import { count } from "../../lib/speech/format"
import { phrases, wordFor, type PhraseOf } from "../../lib/speech/sentence-text"
import { PeopleLink } from "./people-link"
import styles from "./sentence.module.css"

export type SentenceNumber = { number: number; href: string | null }

/**
 * A sentence with live numbers. In the template `{met}` is the number of that name, set as a link to its people,
 * and `{met:has:have}` the word that fits it: the first for one, the second for any other number.
 */
export function Sentence(props: {
  template: string
  numbers: Record<string, SentenceNumber>
  size?: "head" | "lead" | "short"
  level?: 2 | 3
}) {
  const Heading = props.level === 2 ? "h2" : "h3"
  return (
    <Heading className={styles[props.size ?? "head"]}>
      {phrases(props.template).map((phrase, place) => (
        <Phrase key={place} phrase={phrase} numbers={props.numbers} />
      ))}
    </Heading>
  )
}

function Phrase({
  phrase,
  numbers,
}: {
  phrase: PhraseOf
  numbers: Record<string, SentenceNumber>
}): ReactNode {
  if (phrase.kind === "text") return phrase.text
  const { number, href } = numbers[phrase.name] ?? { number: 0, href: null }
  if (phrase.words) return wordFor(number, phrase.words)
  if (href === null) return <strong className={styles.number}>{count(number)}</strong>
  return (
    <strong className={styles.number}>
      <PeopleLink href={href} number={number}>
        {count(number)}
      </PeopleLink>
    </strong>
  )
}
