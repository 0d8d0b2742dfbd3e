-- A signed rating goes only with its case, and a case with signed ratings only for a reason that the store itself can see.
drop trigger signed_rating_stays on rating;

create function signed_rating_goes_with_case() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not exists (select 1 from case_deletion d where d.case_id = old.case_id) then
        raise exception using message = 'a signed rating cannot be deleted', errcode = 'integrity_constraint_violation';
    end if;
    return old;
end
$$;
create trigger signed_rating_stays before delete on rating for each row when (old.state <> 'draft')
    execute function signed_rating_goes_with_case();

create function case_deletion_has_a_reason() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not exists (select 1 from surgical_case c join deletion_log l on l.id = new.log_id
            where c.id = new.case_id and (l.kind in ('withdrawn', 'refused') and c.consent = l.kind
                or l.kind = 'retention' and c.review_by <= l.deleted_on)) then
        raise exception using errcode = 'integrity_constraint_violation',
            message = 'a case is deleted only where consent was refused or withdrawn, or its day has come';
    end if;
    return new;
end
$$;
create trigger case_deletion_has_a_reason before insert on case_deletion for each row
    execute function case_deletion_has_a_reason();
create trigger case_deletion_stays_as_it_is before update on case_deletion for each row
    execute function refuse('a deletion cannot be changed');
create trigger deletion_log_is_frozen before update or delete on deletion_log for each row
    execute function refuse('the log of deletions cannot be changed');
