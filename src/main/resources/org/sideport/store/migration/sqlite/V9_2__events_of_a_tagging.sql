-- The events of one tagging among very many; PostgreSQL has it from the beginning.
create index point_event_by_tagging on point_event (tagging_id);
