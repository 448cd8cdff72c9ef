-- Gives the urine category of one reported ACR or PCR, cut in the unit the laboratory reported. A result with a comparator
-- lies just below ('<') or just above ('>') its number; '<=' and '>=' compare as the number.
-- shape: reported number (0 or more), comparator '<', '>', '<=', '>=' or null, test 'uacr' or 'upcr', unit as in
--   albuminuria_bound, a3 'kdigo' (A3 above 300 mg/g) or 'ada' (A3 from 300 mg/g; ACR only) -> 'A1', 'A2' or 'A3'
-- absent: null when the number is missing or the unit is not one of the test's
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD, Kidney Int Suppl 3:1-150,
--   Table 7, doi:10.1038/kisup.2012.73; for 'ada' American Diabetes Association 2024, Standards of Care in Diabetes,
--   section 11, Diabetes Care 47(Suppl 1):S219-S230, doi:10.2337/dc24-S011
--   [read: reprint of Table 7 in PMC10200071, Table 11; both A3 limits read]
-- example: albuminuria_category(300, null, 'uacr', 'mg/g', 'ada') = A3
create or replace macro albuminuria_category(reported, comparator, test, unit, a3) as
  case
    when reported < albuminuria_bound(test, unit, 'A1')
      or (reported = albuminuria_bound(test, unit, 'A1') and comparator = '<') then 'A1'
    when reported > albuminuria_bound(test, unit, 'A2')
      or (reported = albuminuria_bound(test, unit, 'A2') and comparator = '>')
      or (reported = albuminuria_bound(test, unit, 'A2') and test = 'uacr' and a3 = 'ada' and comparator is distinct from '<')
      then 'A3'
    when reported <= albuminuria_bound(test, unit, 'A2') then 'A2'
  end;
