/** What Next hands a page as its search parameters. */
export type RawSearch = Record<string, string | string[] | undefined>

/** The first value of each parameter, so that a schema sees one text or none. */
export function single(raw: RawSearch): Record<string, string | undefined> {
  return Object.fromEntries(
    Object.entries(raw).map(([name, value]) => [name, Array.isArray(value) ? value[0] : value]),
  )
}

/** A path with the parameters that are not null, in the order given. Defaults are null and so are left out. */
export function hrefOf(path: string, params: Record<string, string | number | null>): string {
  const query = new URLSearchParams()
  for (const [name, value] of Object.entries(params)) if (value !== null) query.append(name, String(value))
  return query.size === 0 ? path : `${path}?${query}`
}
