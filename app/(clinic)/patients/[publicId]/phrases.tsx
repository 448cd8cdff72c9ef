import { sentenceCase } from "../../../../lib/speech/format"
import type { EvidencePhrase } from "./evidence-words"
import { SourceLinks } from "./source-links"
import styles from "./standings.module.css"

/** The facts behind a condition, a line each, with the rows they came from. */
export function Phrases(props: {
  phrases: readonly EvidencePhrase[]
  isValueShown: boolean
  size?: "small"
}) {
  return props.phrases.map((phrase) => {
    const words = [props.isValueShown ? phrase.value : "", phrase.rest]
      .filter((word) => word !== "")
      .join(", ")
    if (words === "" && props.size === "small") return null
    return (
      <div key={`${phrase.value} ${phrase.rest}`} className={styles.fact}>
        {words === "" ? null : `${sentenceCase(words)}. `}
        {props.size === "small" ? null : <SourceLinks sources={phrase.sources} />}
      </div>
    )
  })
}
