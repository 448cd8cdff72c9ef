// Loaded into the site before Next, it stands before everything that answers: it lets in or refuses a request, takes away
// what a request may not say of itself, and gives every answer its headers, also the answers Next makes on its own.
import { randomBytes } from "node:crypto"
import http from "node:http"
import { innerHeaders, refusalOf } from "./admission.mjs"
import { answerHeaders, endsSession, everythingKept, isHashedFile } from "./answer-headers.mjs"
import { ownOrigins } from "./origins.mjs"
import { isLoopback, isTrusted, plainAddress, senderOf, trustedPeers } from "./peers.mjs"
import { quietConsole } from "./quiet-log.mjs"
import { turns } from "./turns.mjs"

const isDevelopment = process.env.NODE_ENV === "development"
const publicOrigin = process.env.FILTRATE_ORIGIN || undefined
const isHttps = publicOrigin?.startsWith("https://") ?? false
const origins = ownOrigins({ origin: publicOrigin, port: Number(process.env.PORT ?? 3000) })
const trusted = trustedPeers(process.env.FILTRATE_TRUST_PROXY ?? "")

const uploadPath = "/api/imports"
const mostUploadBytes = Number(process.env.FILTRATE_UPLOAD_LIMIT || 2 * 2 ** 30)
const mostFormBytes = 1_000_000
const headMs = 20_000
const formMs = 60_000
const uploadMs = 60 * 60_000
/** A screen is a handful of requests, and a whole clinic may come from one address; a program that tries doors asks for more. */
const general = turns({ most: isDevelopment ? 100_000 : 2400, perMs: 60_000 })

if (!isDevelopment) quietConsole()

const createServer = http.createServer
http.createServer = (...given) => {
  const listener = given.find((one) => typeof one === "function")
  const server = createServer(...given.map((one) => (one === listener && listener ? guarded(listener) : one)))
  server.headersTimeout = headMs
  server.requestTimeout = uploadMs
  server.maxHeadersCount = 100
  return server
}

function guarded(listener) {
  return (request, response) => {
    const nonce = randomBytes(16).toString("base64")
    const path = (request.url ?? "").split("?", 1)[0] ?? ""
    giveHeaders(response, answerHeaders({ nonce, isHttps, isDevelopment, path }))
    const sender = knowSender(request)
    const refusal =
      refusalOf(wordsOf(request), origins) ?? sizeRefusal(request, path) ?? turnRefusal(sender, path)
    endSlowForm(request, path)
    if (refusal) return refuse(request, response, refusal)
    request.headers["x-nonce"] = nonce
    nameOrigin(request)
    request.headers["content-security-policy"] = `script-src 'nonce-${nonce}'`
    listener(request, response)
  }
}

/** Takes away what only a proxy may say, keeps what a trusted one said, and leaves the sender as the one forwarded address. */
function knowSender(request) {
  const { headers } = request
  const peer = plainAddress(request.socket.remoteAddress ?? "")
  const sender = senderOf({ peer, forwardedFor: headers["x-forwarded-for"] }, trusted)
  const isProxy = isTrusted(peer, trusted)
  const host = isProxy ? headers["x-forwarded-host"] : undefined
  const isByHttps = isProxy ? (headers["x-forwarded-proto"] ?? "https") === "https" : isLoopback(peer)
  for (const name of innerHeaders(Object.keys(headers))) Reflect.deleteProperty(headers, name)
  if (host !== undefined) headers.host = host
  // A site behind HTTPS has no name for who comes past the proxy, or came to the proxy without it.
  if (isHttps && !isByHttps) headers.host = ""
  headers["x-forwarded-for"] = sender
  headers["x-forwarded-proto"] = isHttps ? "https" : "http"
  return sender
}

/** A form that was let in without a name for its page came from one of this site; Next would refuse it without the name. */
function nameOrigin({ method, headers }) {
  if (method === "POST" && headers.origin === "null")
    headers.origin = `${isHttps ? "https" : "http"}://${headers.host}`
}

function wordsOf(request) {
  return {
    method: request.method ?? "",
    url: request.url ?? "",
    host: request.headers.host ?? null,
    fetchSite: request.headers["sec-fetch-site"] ?? null,
    origin: request.headers.origin ?? null,
  }
}

function sizeRefusal(request, path) {
  const bytes = Number(request.headers["content-length"] ?? 0)
  if (bytes <= (path === uploadPath ? mostUploadBytes : mostFormBytes)) return null
  return { status: 413, message: "This is larger than what is taken in here." }
}

function turnRefusal(sender, path) {
  if (isHashedFile(path)) return null
  const waitSeconds = general.take(sender, Date.now())
  if (waitSeconds === 0) return null
  const headers = { "retry-after": String(waitSeconds) }
  return { status: 429, message: "Too many requests at once.", headers }
}

/** A form that trickles in is ended; an upload has its own, longer time. */
function endSlowForm(request, path) {
  if (path === uploadPath || request.complete) return
  const timer = setTimeout(() => request.complete || request.destroy(), formMs)
  request.once("close", () => clearTimeout(timer))
}

function giveHeaders(response, headers) {
  const writeHead = response.writeHead
  response.writeHead = function (...given) {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value)
    const cookies = [response.getHeader("set-cookie"), given.at(-1)?.["set-cookie"]].flat()
    if (endsSession(cookies)) response.setHeader("clear-site-data", everythingKept)
    return writeHead.apply(response, given)
  }
}

/** What a refused request still sends is read away, so that it hears the answer; what is too large is cut off. */
function refuse(request, response, { status, message, headers = {} }) {
  const body = JSON.stringify({ code: "refused", message })
  if (status !== 413) request.resume()
  response.writeHead(status, {
    ...{ "content-type": "application/json; charset=utf-8", ...headers },
    ...(status === 413 ? { connection: "close" } : {}),
    "content-length": Buffer.byteLength(body),
  })
  response.end(request.method === "HEAD" ? undefined : body)
}
