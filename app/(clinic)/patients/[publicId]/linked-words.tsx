import styles from "./identity.module.css"
import { SourceLinks, sourceHref } from "./source-links"

/** Words that open the row they come from; several rows stand beside them. */
export function LinkedWords({ words, sources }: { words: string; sources: readonly string[] }) {
  const [only, ...others] = sources
  if (only === undefined) return words
  if (others.length === 0) return <a href={sourceHref(only)}>{words}</a>
  return (
    <>
      {words}
      <span className={styles.onScreen}>
        {" "}
        (<SourceLinks sources={sources} />)
      </span>
    </>
  )
}
