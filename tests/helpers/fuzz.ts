import fc from "fast-check"
import { expect, inject } from "vitest"
import { AppError, type ErrorCode } from "../../lib/errors"

declare module "vitest" {
  export interface ProvidedContext {
    fuzzInputs: number
  }
}

/** Holds a check against as many inputs as the run asks for; what fails is shrunk and told with its seed. */
export function forInputs<Input>(
  inputs: fc.Arbitrary<Input>,
  check: (input: Input) => void | Promise<void>,
  { atOnce = 1 } = {},
): Promise<void> {
  return fc.assert(
    fc.asyncProperty(inputs, async (input) => {
      await check(input)
    }),
    { numRuns: Math.ceil(inject("fuzzInputs") / atOnce) },
  )
}

const innards =
  /\bat \S+:\d+:\d+|node_modules|\/tmp\/|\.(ts|mjs):\d+|\b(select|insert|update|delete) \w+ (from|into|set)\b|prisma|duckdb|TypeError/i

/** What a person is told names no place of the program, no statement and no folder, but for what they typed themselves. */
export function expectPlainWords(words: string, typed: readonly string[] = []): void {
  const own = typed.reduce((text, one) => (one === "" ? text : text.replaceAll(one, "")), words)
  expect(own).not.toMatch(innards)
}

/** Gives what the work answers; null where it refuses in an expected way, with words that tell nothing of the program. */
export async function answerOrRefusal<Answer>(
  work: () => Answer | Promise<Answer>,
  expected: { codes: readonly ErrorCode[]; typed?: readonly string[] },
): Promise<Answer | null> {
  try {
    return await work()
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    expect(expected.codes).toContain(error.code)
    expectPlainWords(error.personMessage, expected.typed)
    return null
  }
}
