import styles from "./source-links.module.css"

const shownAtOnce = 3

/** The rows of the imports that a value came from: the first few at once, the others one key away. */
export function SourceLinks({ sources }: { sources: readonly string[] }) {
  if (sources.length === 0) return null
  if (sources.length <= shownAtOnce) return <span className={styles.sources}>{linked(sources)}</span>
  return (
    <details className={styles.sources}>
      <summary>{sources.length} source rows</summary>
      {linked(sources)}
    </details>
  )
}

/** The page of one row as it was brought in: `labs:2:214` is line 214 of labs.csv of import 2. */
export function sourceHref(source: string): string {
  const { file, importId, line } = sourceParts(source)
  return `/imports/${importId}/${file}/${line}`
}

export function sourceWords(source: string): string {
  const { file, importId, line } = sourceParts(source)
  return `${file}.csv line ${line}, import ${importId}`
}

/** Plain links: there may be hundreds, and each of the richer kind costs time on the server and in the browser. */
function linked(sources: readonly string[]) {
  return sources.map((source) => (
    <a key={source} href={sourceHref(source)}>
      {sourceWords(source)}
    </a>
  ))
}

function sourceParts(source: string) {
  const [file = "", importId = "", line = ""] = source.split(":")
  return { file, importId, line }
}
