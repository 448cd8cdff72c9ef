import styles from "./source-links.module.css"

const shownAtOnce = 3

/** The rows of the imports that a value came from: a few at once, more of them one key away. */
export function SourceLinks({ sources }: { sources: readonly string[] }) {
  if (sources.length === 0) return null
  if (sources.length <= shownAtOnce)
    return (
      <span className={styles.sources}>
        <Groups sources={sources} />
      </span>
    )
  return (
    <details className={styles.sources}>
      <summary>{sources.length} source rows</summary>
      <Groups sources={sources} />
    </details>
  )
}

/** The page of one row as it was brought in: `labs:2:214` is line 214 of labs.csv of import 2. */
export function sourceHref(source: string): string {
  const { file, importId, line } = sourceParts(source)
  return `/imports/${importId}/${file}/${line}`
}

/**
 * "readings.csv lines 214 and 215, import 3", each number a link. The links are plain: there may be hundreds, and each of
 * the richer kind costs time on the server and in the browser.
 */
function Groups({ sources }: { sources: readonly string[] }) {
  const groups = [...new Set(sources.map(groupOf))]
  return groups.map((group) => {
    const rows = sources.filter((source) => groupOf(source) === group)
    const { file, importId } = sourceParts(group)
    return (
      <span key={group} className={styles.group}>
        {file}.csv {rows.length === 1 ? "line" : "lines"}{" "}
        {rows.map((source, place) => (
          <span key={source}>
            {place === 0 ? "" : place === rows.length - 1 ? " and " : ", "}
            <a href={sourceHref(source)}>{sourceParts(source).line}</a>
          </span>
        ))}
        , import {importId}
      </span>
    )
  })
}

/** The file and the import of a row. */
function groupOf(source: string): string {
  return source.slice(0, source.lastIndexOf(":"))
}

function sourceParts(source: string) {
  const [file = "", importId = "", line = ""] = source.split(":")
  return { file, importId, line }
}
