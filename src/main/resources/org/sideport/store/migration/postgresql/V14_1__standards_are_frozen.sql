-- A closed round keeps its values, its judges and its note.
create trigger closed_round_is_frozen before update or delete on angoff_round for each row when (old.state <> 'open')
    execute function refuse('a closed round cannot be changed');
create trigger round_begins_open before insert on angoff_round for each row when (new.state <> 'open')
    execute function refuse('a round begins open, once');

create function part_of_round_changes() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if tg_op <> 'INSERT' and exists (select 1 from angoff_round r where r.id = old.round_id and r.state <> 'open')
            or tg_op <> 'DELETE' and exists (select 1 from angoff_round r where r.id = new.round_id and r.state <> 'open') then
        raise exception using message = 'a closed round cannot be changed', errcode = 'integrity_constraint_violation';
    end if;
    return case tg_op when 'DELETE' then old else new end;
end
$$;
create trigger closed_round_keeps_its_judge before insert or update or delete on angoff_judge for each row
    execute function part_of_round_changes();
create trigger closed_round_keeps_its_value before insert or update or delete on angoff_value for each row
    execute function part_of_round_changes();

-- Of an agreed standard only the pointer to its successor may be set, once.
create function standard_changes() returns trigger language plpgsql as $$
begin
    if old.superseded_by is not null or new.superseded_by is null
            or (to_jsonb(new) - 'superseded_by') is distinct from (to_jsonb(old) - 'superseded_by') then
        raise exception using message = 'an agreed standard cannot be changed', errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;
create trigger standard_is_frozen before update on standard for each row execute function standard_changes();
create trigger standard_stays before delete on standard for each row
    execute function refuse('an agreed standard cannot be deleted');
create trigger decision_is_frozen before update on decision for each row
    execute function refuse('a recorded decision cannot be changed');
create trigger decision_stays before delete on decision for each row
    execute function refuse('a recorded decision cannot be deleted');
