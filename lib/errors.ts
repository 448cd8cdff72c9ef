/** Every expected failure, with the HTTP status a route answers and the exit code a command ends with. */
const outcomes = {
  "bad-request": { status: 400, exitCode: 2 },
  "not-signed-in": { status: 401, exitCode: 2 },
  "not-permitted": { status: 403, exitCode: 2 },
  "not-found": { status: 404, exitCode: 2 },
  "import-refused": { status: 422, exitCode: 1 },
  "import-asks": { status: 409, exitCode: 3 },
  "import-running": { status: 409, exitCode: 1 },
  "no-snapshot": { status: 503, exitCode: 1 },
  "too-large": { status: 413, exitCode: 2 },
  "too-many-requests": { status: 429, exitCode: 1 },
  superseded: { status: 409, exitCode: 1 },
  "snapshot-failed": { status: 500, exitCode: 1 },
  "store-unavailable": { status: 503, exitCode: 1 },
  "disk-full": { status: 507, exitCode: 1 },
  "port-taken": { status: 500, exitCode: 1 },
  "not-reproduced": { status: 500, exitCode: 1 },
  "audit-broken": { status: 500, exitCode: 1 },
  "start-failed": { status: 500, exitCode: 1 },
} as const

export type ErrorCode = keyof typeof outcomes

/** Someone else's mistake: `message` is for the log, `personMessage` for the person. */
export class AppError extends Error {
  readonly code: ErrorCode
  readonly personMessage: string
  readonly retryAfterSeconds: number | undefined

  constructor(
    code: ErrorCode,
    personMessage: string,
    options?: { log?: string; cause?: unknown; retryAfterSeconds?: number },
  ) {
    super(options?.log ?? personMessage, { cause: options?.cause })
    this.name = "AppError"
    this.code = code
    this.personMessage = personMessage
    this.retryAfterSeconds = options?.retryAfterSeconds
  }
}

export function statusOf(error: unknown): number {
  return error instanceof AppError ? outcomes[error.code].status : 500
}

export function exitCodeOf(error: unknown): number {
  return error instanceof AppError ? outcomes[error.code].exitCode : 1
}
