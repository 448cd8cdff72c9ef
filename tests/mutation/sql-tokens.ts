const kinds = ["word", "number", "text", "operator", "parameter"] as const

/** A piece of SQL with the place where it begins. */
export type Token = { kind: (typeof kinds)[number]; text: string; at: number }

const pattern =
  /(?<skipped>\s+|--[^\n]*)|(?<text>'(?:[^']|'')*')|(?<parameter>\$\w+)|(?<word>[A-Za-z_]\w*)|(?<number>\d+(?:\.\d+)?)|(?<operator><>|<=|>=|\|\||[^\s\w])/g

/** The pieces of a SQL text in order, without comments and blanks. */
export function tokensOf(sql: string): Token[] {
  return [...sql.matchAll(pattern)].flatMap((match) => {
    const kind = kinds.find((one) => match.groups?.[one] !== undefined)
    return kind === undefined ? [] : [{ kind, text: match[0], at: match.index }]
  })
}
