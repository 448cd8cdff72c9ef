import { describe, expect, test } from "vitest"
import { senderOf, trustedPeers } from "../../../lib/front/peers.mjs"

const trusted = trustedPeers("10.0.0.5, 10.1.0.0/16, fd00::/8")

describe("the sender of a request", () => {
  test.each([
    ["is its peer", "203.0.113.9", undefined, "203.0.113.9"],
    ["is its peer whatever that claims", "203.0.113.9", "198.51.100.1", "203.0.113.9"],
    ["is its peer, written as IPv6", "::ffff:203.0.113.9", undefined, "203.0.113.9"],
    ["is who a trusted proxy says", "10.0.0.5", "198.51.100.1", "198.51.100.1"],
    ["is who a proxy of a trusted network says", "10.1.200.7", "2001:db8::1", "2001:db8::1"],
    [
      "is the last before the proxies, not what was claimed first",
      "10.0.0.5",
      "1.1.1.1, 198.51.100.1, 10.1.0.9",
      "198.51.100.1",
    ],
    ["is the proxy where it says nothing", "10.0.0.5", undefined, "10.0.0.5"],
    ["is the proxy where it says no address", "fd00::1", "<script>", "fd00::1"],
  ])("%s", (_title, peer, forwardedFor, sender) => {
    expect(senderOf({ peer, forwardedFor }, trusted)).toBe(sender)
  })

  test("trusts nobody unless told", () => {
    expect(senderOf({ peer: "127.0.0.1", forwardedFor: "198.51.100.1" }, trustedPeers(""))).toBe("127.0.0.1")
  })
})

test.each(["proxy.example.org", "10.0.0.0/33", "10.0.0.0/8/8", "fd00::/129", "10.0.0.0/"])(
  "%s is neither an address nor a network",
  (words) => {
    expect(() => trustedPeers(words)).toThrow(RangeError)
  },
)
