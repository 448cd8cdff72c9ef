import { markHref } from "./mark-href"
import { SourceLinks, sourceHref } from "./source-links"

export type ToldFact = {
  words: string
  sources: readonly string[]
  /** The list of figures that holds the rows, where one does. */
  section?: string
}

/** A fact that opens its only row, or the list of figures that has its rows; others stand beside it. */
export function Told({ words, sources, section }: ToldFact) {
  const [only, ...others] = sources
  if (only === undefined) return words
  if (others.length === 0) return <a href={sourceHref(only)}>{words}</a>
  if (section !== undefined) return <a href={markHref(sources, section)}>{words}</a>
  return (
    <>
      {words} <SourceLinks sources={sources} />
    </>
  )
}
