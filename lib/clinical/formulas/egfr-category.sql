-- Gives the GFR category of an eGFR; the limits are written for whole numbers, so round first.
-- shape: egfr number mL/min/1.73 m2 (whole, 1 to 250) -> 'G1', 'G2', 'G3a', 'G3b', 'G4' or 'G5'
-- absent: null when egfr is null
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD,
--   Kidney Int Suppl 3:1-150, statement 1.2.3 and Table 5, doi:10.1038/kisup.2012.73; unchanged in KDIGO 2024,
--   Kidney Int 105(4S):S117-S314, doi:10.1016/j.kint.2023.10.018
--   [read: KDIGO 2012 statement 1.2.3]
-- example: egfr_category(59) = G3a
create or replace macro egfr_category(egfr) as
  case
    when egfr >= 90 then 'G1'
    when egfr >= 60 then 'G2'
    when egfr >= 45 then 'G3a'
    when egfr >= 30 then 'G3b'
    when egfr >= 15 then 'G4'
    when egfr < 15 then 'G5'
  end;
