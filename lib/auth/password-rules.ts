import "server-only"
import { ZxcvbnFactory } from "@zxcvbn-ts/core"
import { adjacencyGraphs, dictionary as common } from "@zxcvbn-ts/language-common"
import { dictionary as english } from "@zxcvbn-ts/language-en"
import { isBreached } from "./breached-passwords"

/** NIST SP 800-63B-4 for a password by itself; length alone, no rule of composition. */
export const passwordLength = { least: 15, most: 128 } as const

/** Powers of ten of guesses: a million million, out of reach of guessing at the site (common practice, no source). */
const leastGuessesLog10 = 12

/** The start of a password is judged for all of it: the time that judging takes grows with the square of the length and more. */
const judgedCharacters = 40

const tradeWords = ["filtrate", "kidney", "renal", "nephrology", "nephron", "dialysis", "clinic", "hospital"]

/**
 * Why a password cannot be set, in words for the person, or null. Beside its length it is judged by its parts: common
 * passwords, words, names, walks on the keyboard, and the words of this account and clinic, also repeated, joined or padded.
 */
export async function passwordProblem(
  password: string,
  about: { words: readonly string[]; breachedHashes: string | undefined },
): Promise<string | null> {
  const plain = password.normalize("NFKC")
  const length = [...plain].length
  if (length < passwordLength.least) return `A password has at least ${passwordLength.least} characters.`
  if (length > passwordLength.most) return `A password has at most ${passwordLength.most} characters.`
  if (isEasy(plain, about.words)) return "This password is too easy to guess: it is made of common parts."
  if (about.breachedHashes !== undefined && (await isBreached(plain, about.breachedHashes)))
    return "This password is on a list of passwords that have become known."
  return null
}

function isEasy(password: string, words: readonly string[]): boolean {
  const own = [...tradeWords, ...words.flatMap((word) => [word, ...word.split(/[^\p{L}\p{N}]+/u)])]
  const checked = judge().check(
    [...password].slice(0, judgedCharacters).join(""),
    own.filter((word) => word.length > 2),
  )
  return checked.guessesLog10 < leastGuessesLog10
}

let factory: ZxcvbnFactory | null = null

function judge(): ZxcvbnFactory {
  factory ??= new ZxcvbnFactory({ dictionary: { ...common, ...english }, graphs: adjacencyGraphs })
  return factory
}
