-- A trainee's own cases among very many, and the events of a tagging; PostgreSQL has both from the beginning.
create index surgical_case_by_trainee on surgical_case (trainee);
create index point_event_by_tagging on point_event (tagging_id);
