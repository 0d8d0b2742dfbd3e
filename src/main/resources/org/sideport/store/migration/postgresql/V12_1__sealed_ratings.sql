-- Nothing is signed without its seal, and a seal is made once. It goes only with its rating.
create function rating_has_seal() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not exists (select 1 from rating_seal s where s.rating_id = old.id) then
        raise exception using message = 'a rating is sealed when it is signed', errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;
create trigger signed_rating_is_sealed before update on rating for each row
    when (old.state = 'draft' and new.state <> 'draft') execute function rating_has_seal();

create trigger seal_is_frozen before update on rating_seal for each row execute function refuse('a seal cannot be changed');

create function seal_goes_with_rating() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if exists (select 1 from rating r where r.id = old.rating_id and r.state <> 'draft') then
        raise exception using message = 'a seal cannot be taken away', errcode = 'integrity_constraint_violation';
    end if;
    return old;
end
$$;
create trigger seal_stays before delete on rating_seal for each row execute function seal_goes_with_rating();
