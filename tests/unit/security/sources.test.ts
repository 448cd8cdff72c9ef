import { execFileSync } from "node:child_process"
import { readFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { describe, expect, test } from "vitest"

const root = fileURLToPath(new URL("../../..", import.meta.url))

const tracked = execFileSync("git", ["ls-files", "-z"], { cwd: root, encoding: "utf8" })
  .split("\0")
  .filter(Boolean)
const program = tracked
  .filter(
    (file) => /^(app|lib|prisma|public)\/|^[^/]+\.(ts|js)$/.test(file) && /\.(m?js|tsx?|sql)$/.test(file),
  )
  .map((file) => ({ file, text: readFileSync(path.join(root, file), "utf8") }))

describe("the program", () => {
  test("is what is looked at", () => {
    expect(program.length).toBeGreaterThan(200)
    expect(holding(/randomBytes\(/)).toContain("lib/access/tokens.ts")
  })

  test.each([
    ["turns no certificate check off", /rejectUnauthorized\s*:\s*false|NODE_TLS_REJECT_UNAUTHORIZED/],
    ["takes no chance from a generator that can be foretold", /Math\.random/],
    ["makes no code as it goes", /\beval\(|new Function\(/],
    ["writes no markup past the framework", /dangerouslySetInnerHTML|\.innerHTML\b|document\.write\(/],
    [
      "runs nothing through a shell",
      /shell:\s*true|\bexec(Sync)?\(["'`]|from "node:child_process".*\bexec\b/,
    ],
    ["listens to no message of another window", /postMessage|addEventListener\("message"/],
    ["keeps nothing in the browser beyond the page", /\blocalStorage\b|\bindexedDB\b|caches\.open/],
  ])("%s", (_title, forbidden) => {
    expect(holding(forbidden)).toEqual([])
  })

  test("hashes by nothing that is broken, but for lists of breached passwords, which come in SHA-1", () => {
    expect(holding(/createHash\(\s*["'`](md5|sha-?1|md4|ripemd)/i)).toEqual([
      "lib/auth/breached-passwords.ts",
    ])
  })

  test("styles an element directly only where the browser alone makes it", () => {
    expect(holding(/\sstyle=\{/)).toEqual([
      "app/(clinic)/patients/patient-rows.tsx",
      "app/(clinic)/patients/patients-grid.tsx",
    ])
  })

  test("makes regular expressions of its own names, and of words of a person that it escapes", () => {
    expect(holding(/new RegExp\(/)).toEqual([
      "lib/engine/late-settings.ts",
      "lib/engine/run.ts",
      "lib/engine/views.ts",
      "lib/store/person-words.ts",
    ])
  })

  test("calls another server in one place", () => {
    const calls =
      /\bfetch\(|\bhttps?\.(request|get)\(|from "(node:)?(https?|http2|tls|dns|dgram|undici)"|XMLHttpRequest/

    expect(holding(calls)).toEqual([
      // In the browser, to this site.
      "app/(clinic)/imports/send-form.ts",
      "app/(clinic)/keep-alive.tsx",
      "app/(clinic)/patients/[publicId]/record/hand-out-form.tsx",
      "app/(clinic)/patients/panel.ts",
      // Asks the site it has just started.
      "lib/cli/site-process.ts",
      "lib/front/site-front.mjs",
      "lib/outgoing.ts",
    ])
  })
})

describe("the tree holds no secret", () => {
  const secrets = [
    /-----BEGIN [A-Z ]*PRIVATE KEY-----/,
    /\bAKIA[0-9A-Z]{16}\b/,
    /\bgh[pousr]_[A-Za-z0-9]{36}/,
    /\bxox[abprs]-[A-Za-z0-9-]{10,}/,
    /\beyJ[A-Za-z0-9_-]{20,}\.eyJ[A-Za-z0-9_-]{20,}\./,
    /\b(secret|passw(or)?d|api_?key|token)\w*["']?\s*[:=]\s*["'][A-Za-z0-9+/_-]{24,}["']/i,
    /postgres(ql)?:\/\/(?!\w+:password@)[^\s:@/"'`$]+:[^\s@"'`$]{3,}@/,
  ]
  const texts = tracked.filter((file) => !/\.(png|zip|csv)$|^package-lock\.json$/.test(file))

  test("in any of its texts", () => {
    const found = texts.flatMap((file) => {
      const text = readFileSync(path.join(root, file), "utf8")
      return secrets.filter((secret) => secret.test(text)).map((secret) => `${file}: ${secret.source}`)
    })

    expect(found).toEqual([])
  })

  test("and such a secret would be seen", () => {
    const samples = [
      ["-----BEGIN", "PRIVATE KEY-----"].join(" "),
      ["AKIA", "ABCDEFGHIJKLMNOP"].join(""),
      ["postgres://clinic", "correcthorse@db.test/x"].join(":"),
      ['apiKey = "', "a1".repeat(14), '"'].join(""),
    ]

    expect(samples.filter((sample) => !secrets.some((secret) => secret.test(sample)))).toEqual([])
  })

  test("nor a file of environment variables", () => {
    expect(tracked.filter((file) => /(^|\/)\.env($|\.(?!example$))/.test(file))).toEqual([])
  })
})

function holding(pattern: RegExp): string[] {
  return program
    .filter(({ text }) => pattern.test(text))
    .map(({ file }) => file)
    .sort()
}
