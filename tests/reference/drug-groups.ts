import type { DrugClass } from "./drug-list"

type Group = {
  /** Null for what is never counted as a drug for the pressure. */
  class: DrugClass | null
  kind: string
  drugs: string
}

/**
 * Each drug as "name other-name ATC:code RX:code"; written out from the WHO ATC index and RxNorm for this check
 * alone, apart from the product's own lists. A name that is not here is no drug any measure asks for.
 */
export const groups: Group[] = [
  {
    class: "ras_blocker",
    kind: "ACE inhibitor",
    drugs: `benazepril ATC:C09AA07 RX:18867; captopril ATC:C09AA01 RX:1998; enalapril ATC:C09AA02 RX:3827;
      fosinopril ATC:C09AA09 RX:50166; lisinopril ATC:C09AA03 RX:29046; moexipril ATC:C09AA13 RX:30131;
      perindopril ATC:C09AA04 RX:54552; quinapril ATC:C09AA06 RX:35208; ramipril ATC:C09AA05 RX:35296;
      trandolapril ATC:C09AA10 RX:38454; cilazapril ATC:C09AA08; imidapril ATC:C09AA16; zofenopril ATC:C09AA15;
      delapril ATC:C09AA12; spirapril ATC:C09AA11; temocapril ATC:C09AA14`,
  },
  {
    class: "ras_blocker",
    kind: "ARB",
    drugs: `azilsartan ATC:C09CA09 RX:1091643; candesartan ATC:C09CA06 RX:214354; eprosartan ATC:C09CA02 RX:83515;
      irbesartan ATC:C09CA04 RX:83818; losartan ATC:C09CA01 RX:52175; olmesartan ATC:C09CA08 RX:321064;
      telmisartan ATC:C09CA07 RX:73494; valsartan ATC:C09CA03 RX:69749; sparsentan ATC:C09XX01; fimasartan ATC:C09CA10`,
  },
  { class: "ras_blocker", kind: "direct renin inhibitor", drugs: "aliskiren ATC:C09XA02 RX:325646" },
  {
    class: "calcium_channel_blocker",
    kind: "dihydropyridine",
    drugs: `amlodipine ATC:C08CA01 RX:17767; felodipine ATC:C08CA02 RX:4316; isradipine ATC:C08CA03 RX:33910;
      nicardipine ATC:C08CA04 RX:7396; nifedipine ATC:C08CA05 RX:7417; nisoldipine ATC:C08CA07 RX:7435;
      lacidipine ATC:C08CA09; lercanidipine ATC:C08CA13 RX:135056; levamlodipine ATC:C08CA17;
      nitrendipine ATC:C08CA08 RX:7441; nilvadipine ATC:C08CA10; manidipine ATC:C08CA11; barnidipine ATC:C08CA12;
      cilnidipine ATC:C08CA14; benidipine ATC:C08CA15`,
  },
  {
    class: "calcium_channel_blocker",
    kind: "non-dihydropyridine",
    drugs: "diltiazem ATC:C08DB01 RX:3443; verapamil ATC:C08DA01 RX:11170",
  },
  {
    class: "diuretic",
    kind: "thiazide",
    drugs: `hydrochlorothiazide hctz hct ATC:C03AA03 RX:5487; chlorthalidone chlortalidone ATC:C03BA04 RX:2409;
      chlorothiazide ATC:C03AA04; bendroflumethiazide bendrofluazide ATC:C03AA01; indapamide ATC:C03BA11;
      metolazone ATC:C03BA08; methyclothiazide ATC:C03AA08; xipamide ATC:C03BA10;
      polythiazide ATC:C03AA05; clopamide ATC:C03BA03; cyclopenthiazide ATC:C03AA07`,
  },
  {
    class: "diuretic",
    kind: "loop",
    drugs: `furosemide frusemide ATC:C03CA01 RX:4603; bumetanide ATC:C03CA02 RX:1808;
      torsemide torasemide ATC:C03CA04 RX:38413; ethacrynic etacrynic ATC:C03CC01`,
  },
  {
    class: "diuretic",
    kind: "potassium-sparing",
    drugs: "amiloride ATC:C03DB01 RX:644; triamterene ATC:C03DB02 RX:10763",
  },
  {
    class: "mineralocorticoid_antagonist",
    kind: "steroidal",
    drugs: `spironolactone ATC:C03DA01 RX:9997; eplerenone ATC:C03DA04 RX:298869; canrenoate ATC:C03DA02`,
  },
  {
    class: "beta_blocker",
    kind: "beta blocker",
    drugs: `atenolol ATC:C07AB03 RX:1202; betaxolol ATC:C07AB05 RX:1520; bisoprolol ATC:C07AB07 RX:19484;
      metoprolol ATC:C07AB02 RX:6918; nebivolol ATC:C07AB12 RX:31555; acebutolol ATC:C07AB04 RX:149;
      nadolol ATC:C07AA12 RX:7226; propranolol ATC:C07AA05 RX:8787; pindolol ATC:C07AA03 RX:8332;
      timolol ATC:C07AA06 RX:10600; carvedilol ATC:C07AG02 RX:20352; labetalol ATC:C07AG01 RX:6185;
      celiprolol ATC:C07AB08 RX:20498; penbutolol ATC:C07AA23; oxprenolol ATC:C07AA02`,
  },
  {
    class: "alpha1_blocker",
    kind: "alpha-1 blocker",
    drugs:
      "doxazosin ATC:C02CA04 RX:49276; prazosin ATC:C02CA01 RX:8629; terazosin ATC:G04CA03; indoramin; urapidil",
  },
  {
    class: "central_agonist",
    kind: "central agonist",
    drugs: `clonidine ATC:C02AC01 RX:2599; guanfacine ATC:C02AC02 RX:40114; methyldopa ATC:C02AB01 RX:6876;
      moxonidine ATC:C02AC05 RX:30257; rilmenidine ATC:C02AC06`,
  },
  {
    class: "vasodilator",
    kind: "vasodilator",
    drugs: "hydralazine ATC:C02DB02 RX:5470; dihydralazine ATC:C02DB01; minoxidil ATC:C02DC01 RX:6984",
  },
  {
    class: "other",
    kind: "other",
    drugs: "reserpine ATC:C02AA02 RX:9260; guanethidine; aprocitentan; baxdrostat",
  },
  {
    class: null,
    kind: "SGLT2 inhibitor",
    drugs: `dapagliflozin ATC:A10BK01 RX:1488564; canagliflozin ATC:A10BK02 RX:1373458;
      empagliflozin ATC:A10BK03 RX:1545653; ertugliflozin ATC:A10BK04 RX:1992672; ipragliflozin ATC:A10BK05;
      sotagliflozin ATC:A10BK06; luseogliflozin ATC:A10BK07; bexagliflozin ATC:A10BK08`,
  },
  { class: null, kind: "finerenone", drugs: "finerenone ATC:C03DA05 RX:2562811" },
  // Partners of counted drugs in one pill: with one of them a pill is of two ingredients.
  {
    class: null,
    kind: "partner",
    drugs: `sacubitril; atorvastatin; simvastatin; rosuvastatin; celecoxib; aspirin; finasteride; isosorbide;
      metformin; linagliptin; sitagliptin; saxagliptin`,
  },
]
