import { describe, expect, test } from "vitest"
import { logLine } from "../../../lib/front/quiet-log.mjs"

const now = new Date("2026-10-31T09:00:00Z")
const marker = "ZZCANARY"

describe("a line of the log", () => {
  test("names kind, code, number and place of a failure, and nothing it says", () => {
    const failure = Object.assign(new TypeError(`cannot read ${marker}\n    ${marker} in the second line`), {
      code: "23505",
      digest: "1234567",
      detail: `Key (name)=(${marker}) already exists.`,
      parameters: [marker],
    })

    const line = logLine("error", ["⨯", failure, { row: marker }], now)

    expect(JSON.parse(line)).toMatchObject({
      ...{ time: "2026-10-31T09:00:00.000Z", level: "error" },
      ...{ kind: "TypeError", code: "23505", incident: "1234567" },
    })
    expect(JSON.parse(line).at[0]).toMatch(/^tests\/unit\/front\/quiet-log\.test\.ts:\d+:\d+$/)
    expect(line).not.toContain(marker)
  })

  test("follows the cause the same way", () => {
    const failure = new Error(marker, {
      cause: Object.assign(new RangeError(marker), { code: marker + " x" }),
    })

    const line = logLine("error", [failure], now)

    expect(JSON.parse(line).cause).toMatchObject({ kind: "RangeError" })
    expect(line).not.toContain(marker)
  })

  test.each([[[`a name: ${marker}`]], [[{ marker }]], [[]]])("repeats no words: %j", (said) => {
    expect(JSON.parse(logLine("warn", said, now))).toEqual({
      ...{ time: "2026-10-31T09:00:00.000Z", level: "warn", kind: "words withheld" },
    })
  })
})
