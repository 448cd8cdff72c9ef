import fc from "fast-check"

/** Texts that have broken programs before: of databases, shells, markup, paths, spreadsheets, numbers and objects. */
const knownEvils = [
  ...[
    "",
    " ",
    "\0",
    "a\0b",
    "\u001f",
    "\r\n",
    "\uFEFF",
    "\u202Eabc",
    "\uD800",
    "a\uDFFFb",
    "é",
    "e\u0301",
    "ﷺ",
    "𝄞",
  ],
  ...[
    "'",
    "''",
    '"',
    "`",
    "\\",
    "';--",
    "' or '1'='1",
    "1; drop table patients",
    "$1",
    "$$",
    "%",
    "_",
    "?",
    ":id",
  ],
  ...[
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "javascript:alert(1)",
    "{{7*7}}",
    "${7*7}",
  ],
  ...[
    "../../etc/passwd",
    "..\\..\\x",
    "/etc/passwd",
    "file:///etc/passwd",
    "C:\\x",
    "//elsewhere.test",
    "\\\\host\\x",
  ],
  ...["https://elsewhere.test", "http://169.254.169.254/", "%00", "%2e%2e%2f", "%E0%A4%A", "%"],
  ...["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "＝1", "-5", "-1e5", '=HYPERLINK("http://elsewhere.test")'],
  ...[
    "0",
    "-0",
    "1e999",
    "-1",
    "1.5",
    "NaN",
    "Infinity",
    "null",
    "undefined",
    "true",
    "[]",
    "{}",
    "0x10",
    "1_000",
  ],
  ...["2147483647", "2147483648", "9007199254740993", "9".repeat(40), "0".repeat(400), "1e5", "٣", "１２"],
  ...[
    "__proto__",
    "constructor",
    "prototype",
    "toString",
    "hasOwnProperty",
    "__proto__[x]",
    "then",
    "length",
  ],
  ...[
    "2026-01-31",
    "2026-02-30",
    "0000-00-00",
    "9999-12-31",
    "2026-01",
    "2026-13",
    "2026-01-31T25:61",
    "-000001-01",
  ],
  ...[
    "2026-01-31T14:30+02:00",
    "2026-01-31T14:30:00.123456789Z",
    "2026-01-31 14:30-23:59",
    "T",
    "1970-01-01T00:00Z",
  ],
  ...["a".repeat(300), "x".repeat(5000), "((((((((((a", "a".repeat(40) + "!", "\n".repeat(50)],
] as const

const anyText = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.string({ unit: "grapheme", maxLength: 20 }),
  fc.string({ unit: "binary", maxLength: 20 }),
)

/** Any text, many of them made to do harm. */
export const hostileText = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...knownEvils) },
  { weight: 3, arbitrary: anyText },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.constantFrom(...knownEvils), anyText).map(([evil, text]) => `${text}${evil}`),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom(...knownEvils), fc.constantFrom(...knownEvils))
      .map((two) => two.join("")),
  },
)

/** Often a good value, else one that is not. */
export function mostly(...good: string[]): fc.Arbitrary<string> {
  return fc.oneof({ weight: 2, arbitrary: fc.constantFrom(...good) }, { weight: 1, arbitrary: hostileText })
}

/** What a page is handed as its search parameters: hostile values under the names it knows and under others. */
export function hostileSearch(names: readonly string[], good: readonly string[]) {
  const name = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...names) },
    { weight: 1, arbitrary: hostileText },
  )
  const value = mostly(...good)
  const values = fc.oneof(
    { weight: 3, arbitrary: value },
    fc.array(value, { maxLength: 3 }),
    fc.constant(undefined),
  )
  return fc.array(fc.tuple(name, values), { maxLength: 6 }).map((pairs) => Object.fromEntries(pairs))
}

/** The same as it stands in an address. */
export function queryOf(search: Record<string, string | string[] | undefined>): string {
  const params = new URLSearchParams()
  for (const [name, value] of Object.entries(search))
    for (const one of Array.isArray(value) ? value : value === undefined ? [] : [value])
      params.append(wellFormed(name), wellFormed(one))
  return params.toString()
}

/** A text as it comes through a file, an address or a form: half a character becomes the sign for what cannot be read. */
export function wellFormed(text: string): string {
  return Buffer.from(text, "utf8").toString("utf8")
}

/** What a list of the people of a measure may be narrowed by in an address. */
export const listNames: readonly string[] = [
  "month",
  "standing",
  "change",
  "cause",
  "since",
  "detail",
  "reason",
  "clinician",
  "site",
  "sex",
  "age",
  "language",
  "race",
  "ethnicity",
  "series",
  "page",
]
