-- Gives how many times a year eGFR and urine albumin should be measured in the cell where the two categories meet.
-- "4 or more" is given as 4. In G1 and G2 with A1 the one test is a screening test.
-- shape: g 'G1', 'G2', 'G3a', 'G3b', 'G4' or 'G5', a 'A1', 'A2' or 'A3' -> INTEGER tests per year
-- absent: null when either category is missing
-- throws: nothing
-- source: KDIGO 2024, Clinical practice guideline for the evaluation and management of CKD, Kidney Int 105(4S):S117-S314,
--   monitoring figure of section 2.1, doi:10.1016/j.kint.2023.10.018 (same numbers as the heat map of KDIGO 2022, diabetes
--   management in CKD, Kidney Int 102(5S):S1-S127; KDIGO 2012 asked 2, not 3, of G1 and G2 with A3)
--   [read: ADA 2024 pocket summary (2022 grid) and PMC10985780, Table 5 (2012 grid); the 2024 figure from memory]
-- example: yearly_tests('G3b', 'A1') = 2
create or replace macro yearly_tests(g, a) as
  case
    when g in ('G1', 'G2') then case a when 'A1' then 1 when 'A2' then 1 when 'A3' then 3 end
    when g = 'G3a' then case a when 'A1' then 1 when 'A2' then 2 when 'A3' then 3 end
    when g = 'G3b' then case a when 'A1' then 2 when 'A2' then 3 when 'A3' then 3 end
    when g = 'G4' then case a when 'A1' then 3 when 'A2' then 3 when 'A3' then 4 end
    when g = 'G5' then case when a in ('A1', 'A2', 'A3') then 4 end
  end;
