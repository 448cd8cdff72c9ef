import "server-only"
import { hashToken, newToken } from "../access/tokens"
import type { PrismaClient } from "./generated/client"

export type ChallengePurpose = "register" | "sign-in" | "factor" | "prove"

export const challengeLastsMs = 5 * 60_000

/** Keeps what a passkey has to sign, and answers the token under which the same browser comes back. */
export async function keepChallenge(
  client: PrismaClient,
  kept: { purpose: ChallengePurpose; userId: string | null; challenge: string; now: Date },
): Promise<string> {
  const { purpose, userId, challenge, now } = kept
  const token = newToken()
  await client.passkeyChallenge.deleteMany({ where: { endsAt: { lte: now } } })
  await client.passkeyChallenge.create({
    data: {
      ...{ tokenHash: hashToken(token), purpose, userId, challenge },
      endsAt: new Date(now.getTime() + challengeLastsMs),
    },
  })
  return token
}

/** What had to be signed, for this purpose and person; it is gone afterwards, and of several at once one is told. */
export async function takeChallenge(
  client: PrismaClient,
  taken: { token: string; purpose: ChallengePurpose; userId: string | null; now: Date },
): Promise<string | null> {
  const { token, purpose, userId, now } = taken
  const where = { tokenHash: hashToken(token), purpose, userId, endsAt: { gt: now } }
  const row = await client.passkeyChallenge.findFirst({ where, select: { challenge: true } })
  const { count } = await client.passkeyChallenge.deleteMany({ where: { tokenHash: hashToken(token) } })
  return row && count === 1 ? row.challenge : null
}
