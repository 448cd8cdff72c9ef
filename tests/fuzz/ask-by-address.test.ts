import fc from "fast-check"
import { describe, expect, test } from "vitest"
import {
  importHref,
  importsHref,
  ImportId,
  parseImportsView,
  parseImportView,
  SourcePlace,
} from "../../app/(clinic)/imports/search-params"
import {
  lettersHref,
  parseChosenLetters,
  parseLettersView,
  sheetsHref,
} from "../../app/(clinic)/outreach/letters/search-params"
import { measureHref, parseMeasureView } from "../../app/(clinic)/measures/search-params"
import {
  parsePatientsAddress,
  parsePatientsView,
  patientsHref,
} from "../../app/(clinic)/patients/search-params"
import { parsePatientView, PublicId } from "../../app/(clinic)/patients/[publicId]/search-params"
import { myPatientsHref, parseMyPatientsView } from "../../app/(clinic)/my-patients/search-params"
import { monthHref, parseMonthView } from "../../app/(clinic)/search-params"
import { parseProtectionView, protectionHref } from "../../app/(clinic)/protection/search-params"
import { parseSeveralClassesView, severalClassesHref } from "../../app/(clinic)/several-classes/search-params"
import { parseSodiumView, sodiumHref } from "../../app/(clinic)/sodium/search-params"
import { parseStartingView, startingHref } from "../../app/(clinic)/starting-and-stopping/search-params"
import { placeHref, placeOf } from "../../app/_http/prove"
import { innerHeaders, refusalOf } from "../../lib/front/admission.mjs"
import { contentPolicy } from "../../lib/front/answer-headers.mjs"
import { isFromOwnPage, isOwnHost } from "../../lib/front/origins.mjs"
import { senderOf, trustedPeers } from "../../lib/front/peers.mjs"
import { logLine } from "../../lib/front/quiet-log.mjs"
import { expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileSearch, hostileText, listNames, mostly, wellFormed } from "../helpers/hostile"

const names = [
  ...listNames,
  ...["before", "after", "file", "caution", "measure", "sort", "columns", "classes"],
]
const search = hostileSearch(names, ["2026-01", "not-met", "met", "2", "S-01", "readings.csv", "", "female"])
const searchOf = (href: string) => Object.fromEntries(new URL(href, "http://site").searchParams)

describe("any search of a screen becomes a view, and a view its address, which says the same again:", () => {
  test("the month", () =>
    forInputs(search, (raw) => {
      const view = parseMonthView(raw)
      expect(parseMonthView(searchOf(monthHref(view)))).toEqual(view)
    }))

  test("a measure", () =>
    forInputs(search, (raw) => {
      const view = parseMeasureView(raw)
      const again = parseMeasureView(searchOf(measureHref("bp-at-target", view, "people")))
      expect(again).toEqual(asSent(view))
    }))

  test("somebody's own patients", () =>
    forInputs(
      hostileSearch(["month", "clinician", "change", "page"], ["2026-01", "S-01", "worse", "2"]),
      (raw) => {
        const view = parseMyPatientsView(raw)
        expect(parseMyPatientsView(searchOf(myPatientsHref(view)))).toEqual(asSent(view))
      },
    ))

  test("those on several classes", () =>
    forInputs(hostileSearch(["month", "finding", "page"], ["2026-01", "no-diuretic", "2"]), (raw) => {
      const view = parseSeveralClassesView(raw)
      expect(parseSeveralClassesView(searchOf(severalClassesHref(view)))).toEqual(view)
    }))

  test("those without an ACE inhibitor or ARB", () =>
    forInputs(
      hostileSearch(["month", "group", "whose", "page"], ["2026-01", "stopped", "everybody", "2"]),
      (raw) => {
        const view = parseProtectionView(raw)
        expect(parseProtectionView(searchOf(protectionHref(view)))).toEqual(view)
      },
    ))

  test("the lists of sodium", () =>
    forInputs(hostileSearch(["month", "list", "page"], ["2026-01", "not-assessed", "2"]), (raw) => {
      const view = parseSodiumView(raw)
      expect(parseSodiumView(searchOf(sodiumHref(view)))).toEqual(view)
    }))

  test("who is to start or to stop", () =>
    forInputs(
      hostileSearch(["month", "group", "finding", "page"], ["2026-01", "low", "falls", "severe", "2"]),
      (raw) => {
        const view = parseStartingView(raw)
        expect(parseStartingView(searchOf(startingHref(view)))).toEqual(view)
      },
    ))

  test("the letters that are next and those that are chosen", () =>
    forInputs(hostileSearch(["after", "letters"], ["1", "1,2", "0", "1,,2"]), (raw) => {
      const [view, { letters }] = [parseLettersView(raw), parseChosenLetters(raw)]
      expect(parseLettersView(searchOf(lettersHref(view)))).toEqual(view)
      if (letters !== null) expect(parseChosenLetters(searchOf(sheetsHref(letters))).letters).toEqual(letters)
    }))

  test("the imports and one import", () =>
    forInputs(search, (raw) => {
      const [imports, one] = [parseImportsView(raw), parseImportView(raw)]
      expect(parseImportsView(searchOf(importsHref(imports)))).toEqual(imports)
      expect(parseImportView(searchOf(importHref(1, one)))).toEqual(asSent(one))
    }))

  test("the patients", () =>
    forInputs(search, (raw) => {
      const view = parsePatientsView(raw)
      const again = parsePatientsAddress(new URL(patientsHref(view), "http://site").searchParams)
      expect(again).toEqual(
        JSON.parse(
          JSON.stringify(view, (_key, text) => (typeof text === "string" ? wellFormed(text) : text)),
        ),
      )
    }))

  test("a patient", () =>
    forInputs(fc.tuple(search, hostileText), ([raw, id]) => {
      expect(Object.keys(parsePatientView(raw))).toEqual(["month"])
      if (PublicId.safeParse(id).success) expect(id).toMatch(/^[0-9a-f-]{36}$/i)
    }))
})

function asSent<View extends object>(view: View): unknown {
  return Object.fromEntries(
    Object.entries(view).map(([name, one]) => [name, typeof one === "string" ? wellFormed(one) : one]),
  )
}

test("any place of a row is a place that a row can have, or none", () =>
  forInputs(fc.tuple(mostly("1", "2"), mostly("readings", "labs"), mostly("2", "3")), ([id, file, line]) => {
    const place = SourcePlace.safeParse({ id, file, line })
    if (place.success) expect(Math.max(place.data.id, place.data.line)).toBeLessThan(2 ** 31)
    const one = ImportId.safeParse(id)
    if (one.success) expect(one.data).toBeLessThan(2 ** 31)
  }))

test("no address of the proof of identity leads anywhere but to a screen of the site", () =>
  forInputs(
    mostly("users", "record.00000000-0000-4000-8000-000000000000", "measure.bp-at-target"),
    (word) => {
      expect(placeHref(word)).toMatch(
        /^\/(account|audit|emergencies|imports|users|patients\/[0-9a-f-]{36}\/record|measures\/[a-z0-9-]+)$/,
      )
      expect(placeHref(placeOf(word))).toBe(placeHref(word))
    },
  ))

describe("what a request says of itself", () => {
  const origins = ["https://clinic.test"]
  const header = mostly(
    "clinic.test",
    "https://clinic.test",
    "same-origin",
    "null",
    "GET",
    "POST",
    "/patients?a=1&a=2",
  )
  const maybe = fc.option(header, { nil: null })

  test("is let in or refused in words, and a form only from a page of the site", () =>
    forInputs(
      fc.record({ method: header, url: header, host: maybe, fetchSite: maybe, origin: maybe }),
      (request) => {
        const refusal = refusalOf(request, origins)
        if (refusal) expectPlainWords(refusal.message)
        else {
          expect(isOwnHost(request.host, origins)).toBe(true)
          if (request.method === "POST") expect(isFromOwnPage(request, origins)).toBe(true)
        }
      },
    ))

  test("of its sender counts only from a proxy that is trusted", () => {
    const trusted = trustedPeers("10.0.0.5")
    return forInputs(
      fc.tuple(mostly("10.0.0.5", "198.51.100.7", "::ffff:10.0.0.5"), maybe),
      ([peer, said]) => {
        const sender = senderOf({ peer, forwardedFor: said ?? undefined }, trusted)
        if (!peer.endsWith("10.0.0.5") || peer.length > 15)
          expect([peer, peer.replace(/^::ffff:/i, ""), said]).toContain(sender)
        if (peer === "198.51.100.7") expect(sender).toBe(peer)
      },
    )
  })

  test("under a name of the program's own is taken away", () =>
    forInputs(
      fc.array(fc.oneof(hostileText, fc.constantFrom("X-Forwarded-For", "x-nonce", "cookie", "x-user-id"))),
      (sent) => {
        const taken = innerHeaders(sent)
        expect(taken).not.toContain("cookie")
        for (const name of ["X-Forwarded-For", "x-nonce", "x-user-id"])
          expect(taken.includes(name)).toBe(sent.includes(name))
      },
    ))

  test("never loosens the content security policy", () => {
    const policy = contentPolicy({ nonce: "abc", isHttps: true, isDevelopment: false })
    return forInputs(hostileText, (word) => {
      expect(policy).not.toContain("unsafe")
      expect(
        contentPolicy({
          nonce: encodeURIComponent(wellFormed(word)),
          isHttps: true,
          isDevelopment: false,
        }).split(";").length,
      ).toBe(policy.split(";").length)
    })
  })
})

test("whatever goes wrong is logged as one line without its words", () => {
  const thrown = fc.oneof(
    hostileText,
    fc
      .tuple(hostileText, hostileText)
      .map(([message, code]) => Object.assign(new RangeError(`ZZCANARY ${message}`), { code })),
    fc.tuple(hostileText, hostileText).map(([message, name]) =>
      Object.assign(new Error(`ZZCANARY ${message}`, { cause: new Error(`ZZCANARY ${name}`) }), {
        name: `${name} ZZ CANARY`,
      }),
    ),
    fc.constant(null),
  )
  return forInputs(fc.array(thrown, { maxLength: 3 }), (said) => {
    const line = logLine("error", said, new Date(0))
    expect(line).not.toContain("\n")
    expect(line).not.toContain("CANARY")
    expect(JSON.parse(line)).toMatchObject({ level: "error" })
  })
})
