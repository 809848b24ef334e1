/** The stages of the work in a room, in the order of the work. A stage is derived from facts by {@link roomStanding}; no record keeps it. */
export type Stage = 'assess' | 'prep' | 'estimate' | 'quote' | 'pour' | 'cure' | 'handover' | 'done';

/** `waiting`, `under-way`, `done`, `held`: the shape before a stage or a room's name. */
export type RoomState = 'waiting' | 'under-way' | 'done' | 'held';

export type StageState = { readonly stage: Exclude<Stage, 'done'>; readonly state: RoomState };
