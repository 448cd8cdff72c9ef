import { BlockList, isIP } from "node:net"

/**
 * The addresses whose word about the sender is believed, as FILTRATE_TRUST_PROXY names them: addresses, or networks such
 * as 10.0.0.0/8, divided by commas.
 * @param {string} words
 * @returns {BlockList}
 */
export function trustedPeers(words) {
  const list = new BlockList()
  for (const word of words.split(",").map((one) => one.trim())) {
    if (word === "") continue
    const [address = "", bits, ...more] = word.split("/")
    const kind = kindOf(address)
    if (kind === null || more.length > 0) throw new RangeError(`${word} is neither an address nor a network`)
    if (bits === undefined) list.addAddress(address, kind)
    else list.addSubnet(address, networkBits(bits, kind), kind)
  }
  return list
}

/**
 * Where a request comes from: its peer, or, where the peer is a trusted proxy, the last address of X-Forwarded-For that
 * is none itself. What an untrusted peer claims counts for nothing.
 * @param {{ peer: string | undefined, forwardedFor: string | undefined }} said
 * @param {BlockList} trusted
 */
export function senderOf({ peer, forwardedFor }, trusted) {
  const nearest = plainAddress(peer ?? "")
  if (!isTrusted(nearest, trusted)) return nearest
  const claimed = (forwardedFor ?? "").split(",").map((one) => plainAddress(one.trim()))
  const sender = claimed.reverse().find((address) => !isTrusted(address, trusted))
  return sender !== undefined && isIP(sender) !== 0 ? sender : nearest
}

/**
 * @param {string} address
 * @param {BlockList} trusted
 */
export function isTrusted(address, trusted) {
  const kind = kindOf(address)
  return kind !== null && trusted.check(address, kind)
}

/** Whether an address, or a name to listen under, is this machine alone. */
export function isLoopback(/** @type {string} */ address) {
  return address === "localhost" || address === "::1" || /^127(\.\d{1,3}){3}$/.test(address)
}

/** An IPv4 address as such, also where the socket speaks IPv6. */
export function plainAddress(/** @type {string} */ address) {
  return address.replace(/^::ffff:(?=\d+\.)/i, "")
}

/** @returns {"ipv4" | "ipv6" | null} */
function kindOf(/** @type {string} */ address) {
  const version = isIP(address)
  return version === 0 ? null : version === 4 ? "ipv4" : "ipv6"
}

/**
 * @param {string} bits
 * @param {"ipv4" | "ipv6"} kind
 */
function networkBits(bits, kind) {
  const number = Number(bits)
  if (!/^\d{1,3}$/.test(bits) || number > (kind === "ipv4" ? 32 : 128))
    throw new RangeError(`/${bits} is no width of a network`)
  return number
}
