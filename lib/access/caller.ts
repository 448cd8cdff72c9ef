/** Who asks: a signed-in person with what they may see, for one request. */
export type Caller = {
  readonly userId: string
  readonly userName: string
  readonly name: string
  readonly roles: readonly string[]
  readonly grants: readonly string[]
  readonly isDemo: boolean
  /** Whose panel is the person's own, as the extract's staff are called; null for someone with no panel. */
  readonly staffId: string | null
  /** The sites the person is limited to; none means all. */
  readonly sites: readonly string[]
  readonly session: CallerSession
}

export type CallerSession = {
  /** The stored hash of the token, hexadecimal: names the session and opens nothing. */
  readonly id: string
  readonly method: string
  readonly createdAt: Date
  readonly lastSeenAt: Date
  readonly endsAt: Date
  readonly provenAt: Date
  readonly address: string
}
