import { tokensOf, type Token } from "./sql-tokens"

/** One small change of a SQL text: the changed text, where it was changed and how. */
export type Mutant = { sql: string; line: number; column: number; from: string; to: string }

type Change = { at: number; length: number; to: string }

const comparisons: Record<string, string> = {
  "<": "<=",
  "<=": "<",
  ">": ">=",
  ">=": ">",
  "=": "<>",
  "<>": "=",
}

const words: Record<string, string> = {
  or: "and",
  true: "false",
  false: "true",
  min: "max",
  max: "min",
  least: "greatest",
  greatest: "least",
  bool_or: "bool_and",
  bool_and: "bool_or",
  lead: "lag",
  lag: "lead",
  floor: "ceil",
}

/**
 * Every mutant of a SQL text: each comparison moved or turned, each number one more and one less (a fraction a hundredth
 * more), each and, or, not, true, false, min, max and the like turned, each member of an in-list dropped, each `desc` dropped.
 * Comments, texts, names and the sizes of types are left alone.
 */
export function mutantsOf(sql: string): Mutant[] {
  const tokens = tokensOf(sql)
  return tokens
    .flatMap((token, place) => changesAt(tokens, place, token))
    .map((change) => applied(sql, change))
}

function changesAt(tokens: readonly Token[], place: number, token: Token): Change[] {
  const change = (to: string) => inPlaceOf(token, to)
  if (token.kind === "operator") {
    const turned = comparisons[token.text]
    return turned === undefined || isNamedArgument(tokens, place) ? [] : [change(turned)]
  }
  if (token.kind === "number") return isSizeOfType(tokens, place) ? [] : numbersBeside(token.text).map(change)
  if (token.kind === "text") return intervalBeside(tokens, place).map(change)
  if (token.kind === "word") return wordChanges(tokens, place, token)
  return []
}

function wordChanges(tokens: readonly Token[], place: number, token: Token): Change[] {
  const word = token.text.toLowerCase()
  const next = tokens[place + 1]
  const turned = words[word]
  if (isColumn(tokens, place)) return []
  if (turned !== undefined) return [inPlaceOf(token, turned)]
  if (word === "and") return isInBetween(tokens, place) ? [] : [inPlaceOf(token, "or")]
  if (word === "not") return [inPlaceOf(token, "")]
  if (word === "desc") return [inPlaceOf(token, "asc")]
  if (word === "is" && wordOf(next) !== "not") return [inPlaceOf(token, "is not")]
  return word === "in" && next?.text === "(" ? membersDropped(tokens, place + 1) : []
}

/** `min` as a name of a column or after a dot is no function. */
function isColumn(tokens: readonly Token[], place: number): boolean {
  const [before, word, next] = [tokens[place - 1], wordOf(tokens[place]), tokens[place + 1]]
  if (before?.text === ".") return true
  return ["and", "or", "not", "in", "is", "desc", "true", "false"].includes(word) ? false : next?.text !== "("
}

function isInBetween(tokens: readonly Token[], place: number): boolean {
  for (let before = place - 1, depth = 0; before >= 0; before -= 1) {
    const token = tokens[before]
    if (token?.text === ")") depth += 1
    if (token?.text === "(") depth -= 1
    if (depth < 0) return false
    if (depth > 0) continue
    const word = wordOf(token)
    if (word === "between") return true
    if (["and", "or", "where", "on", "when", "select"].includes(word)) return false
  }
  return false
}

/** `name => value` and `name = value` in a call of read_csv are no comparisons. */
function isNamedArgument(tokens: readonly Token[], place: number): boolean {
  return tokens[place + 1]?.text === ">" || tokens[place - 1]?.text === "="
}

function isSizeOfType(tokens: readonly Token[], place: number): boolean {
  const open = tokens.slice(0, place).findLastIndex((token) => token.text === "(")
  return ["decimal", "numeric", "varchar"].includes(wordOf(tokens[open - 1]))
}

function numbersBeside(text: string): string[] {
  if (text.includes(".")) return [String(Number((Number(text) * 1.01).toPrecision(12)))]
  const number = Number(text)
  return [String(number + 1), number === 0 ? "(-1)" : String(number - 1)]
}

function intervalBeside(tokens: readonly Token[], place: number): string[] {
  const months = /^'(\d+)'$/.exec(tokens[place]?.text ?? "")?.[1]
  if (months === undefined || wordOf(tokens[place - 1]) !== "interval") return []
  return [`'${Number(months) + 1}'`, `'${Number(months) - 1}'`]
}

/** The list without each of its members in turn; a list of one and a subquery are left alone. */
function membersDropped(tokens: readonly Token[], open: number): Change[] {
  const close = tokens.findIndex((token, place) => place > open && token.text === ")")
  const members = tokens.slice(open + 1, close).filter((token) => token.text !== ",")
  const isPlain = members.every((token) => token.kind === "text" || token.kind === "number")
  if (!isPlain || members.length < 2 || close === -1) return []
  const [first, last] = [tokens[open], tokens[close]]
  if (!first || !last) return []
  return members.map((dropped) => ({
    at: first.at,
    length: last.at + 1 - first.at,
    to: `(${members
      .filter((member) => member !== dropped)
      .map((member) => member.text)
      .join(", ")})`,
  }))
}

function inPlaceOf(token: Token, to: string): Change {
  return { at: token.at, length: token.text.length, to }
}

function wordOf(token: Token | undefined): string {
  return token?.kind === "word" ? token.text.toLowerCase() : ""
}

function applied(sql: string, { at, length, to }: Change): Mutant {
  const before = sql.slice(0, at).split("\n")
  return {
    sql: sql.slice(0, at) + to + sql.slice(at + length),
    line: before.length,
    column: (before.at(-1) ?? "").length + 1,
    from: sql.slice(at, at + length).replace(/\s+/g, " "),
    to,
  }
}
