import "server-only"
import { randomBytes } from "node:crypto"
import { hash, verify } from "@node-rs/argon2"

/** The least that OWASP's password storage cheat sheet asks of argon2id: 19 MiB, 2 passes, 1 lane (from memory); argon2id is what the library takes when nothing is said. */
const parameters = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const

/** Hashes at work at once, so that a flood of sign-ins takes neither the memory nor both processors. */
const atOnce = 2

/** A password as stored: argon2id with its parameters and salt in the text. Different ways to type one letter are one. */
export async function hashPassword(password: string): Promise<string> {
  return inTurn(() => hash(password.normalize("NFKC"), parameters))
}

/**
 * Whether a password is the stored one, and whether it should be stored anew since the parameters have risen.
 * Without a stored one it takes as long and is wrong.
 */
export async function verifyPassword(
  stored: string | null,
  password: string,
): Promise<{ isRight: boolean; isOutdated: boolean }> {
  const against = stored ?? (await nobodysHash())
  const isRight = await inTurn(() => verify(against, password.normalize("NFKC")))
  return { isRight: isRight && stored !== null, isOutdated: !against.includes(parameterText) }
}

const parameterText = `$m=${parameters.memoryCost},t=${parameters.timeCost},p=${parameters.parallelism}$`

let nobodys: Promise<string> | null = null

function nobodysHash(): Promise<string> {
  nobodys ??= hashPassword(randomBytes(24).toString("base64url"))
  return nobodys
}

let running = 0
const waiting: (() => void)[] = []

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= atOnce) await new Promise<void>((resolve) => waiting.push(resolve))
  else running += 1
  try {
    return await work()
  } finally {
    const next = waiting.shift()
    if (next) next()
    else running -= 1
  }
}
