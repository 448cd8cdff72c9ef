-- Gives the risk of the cell in which the GFR and the urine category meet.
-- shape: g 'G1', 'G2', 'G3a', 'G3b', 'G4' or 'G5', a 'A1', 'A2' or 'A3'
--   -> 'low', 'moderately increased', 'high' or 'very high'
-- absent: null when either category is missing
-- throws: nothing
-- source: KDIGO 2012, Clinical practice guideline for the evaluation and management of CKD, Kidney Int Suppl 3:1-150,
--   Figure 9, doi:10.1038/kisup.2012.73; unchanged in KDIGO 2024, Figure 1, doi:10.1016/j.kint.2023.10.018
--   [read: copies of the figure in the ADA standards and in PMC10985780, Table 5]
-- example: risk_cell('G3a', 'A2') = high
create or replace macro risk_cell(g, a) as
  case
    when g in ('G1', 'G2') then case a when 'A1' then 'low' when 'A2' then 'moderately increased' when 'A3' then 'high' end
    when g = 'G3a' then case a when 'A1' then 'moderately increased' when 'A2' then 'high' when 'A3' then 'very high' end
    when g = 'G3b' then case a when 'A1' then 'high' when 'A2' then 'very high' when 'A3' then 'very high' end
    when g in ('G4', 'G5') then case when a in ('A1', 'A2', 'A3') then 'very high' end
  end;
