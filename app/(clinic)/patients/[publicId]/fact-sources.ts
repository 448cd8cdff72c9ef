import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"

/** The import rows behind the facts of some topics, each row once; with a word, of that condition, test or class alone. */
export function factSources(
  facts: readonly EvidenceFact[],
  topics: readonly EvidenceFact["topic"][],
  word?: string,
): string[] {
  const chosen = facts.filter(
    (fact) => topics.includes(fact.topic) && (word === undefined || fact.word === word),
  )
  return [...new Set(chosen.flatMap((fact) => fact.sources))]
}
