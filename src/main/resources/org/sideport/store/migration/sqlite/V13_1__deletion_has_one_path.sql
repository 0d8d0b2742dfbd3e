-- A signed rating goes only with its case, and a case with signed ratings only for a reason that the store itself can see.
drop trigger signed_rating_stays;

create trigger signed_rating_stays before delete on rating
when old.state <> 'draft' and not exists (select 1 from case_deletion where case_id = old.case_id)
begin
    select raise(abort, 'a signed rating cannot be deleted');
end;

create trigger case_deletion_has_a_reason before insert on case_deletion
when not exists (
    select 1 from surgical_case c join deletion_log l on l.id = new.log_id
    where c.id = new.case_id and (
        (l.kind in ('withdrawn', 'refused') and c.consent = l.kind)
        or (l.kind = 'retention' and c.review_by <= l.deleted_on)))
begin
    select raise(abort, 'a case is deleted only where consent was refused or withdrawn, or its day has come');
end;

create trigger case_deletion_stays_as_it_is before update on case_deletion
begin
    select raise(abort, 'a deletion cannot be changed');
end;

create trigger deletion_log_is_frozen before update on deletion_log
begin
    select raise(abort, 'the log of deletions cannot be changed');
end;

create trigger deletion_log_stays before delete on deletion_log
begin
    select raise(abort, 'the log of deletions cannot be changed');
end;

-- Of no use but to "insert or replace", which deletes without asking the triggers.
create trigger deletion_log_is_kept_once before insert on deletion_log
when exists (select 1 from deletion_log where id = new.id)
begin
    select raise(abort, 'the log of deletions cannot be changed');
end;
