-- The staff by code: what they do and at which site, both sites and people under codes drawn at random.
select
  codes.code as staff_id,
  codes.code as name,
  s.role,
  sites.code as site
from staff_raw as s
join staff_codes as codes on codes.original = s.staff_id
left join site_codes as sites on sites.original = s.site
order by codes.code
