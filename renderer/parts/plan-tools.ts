/** The tools of the plan, by the part of a room's plan that each one edits. */
export const PLAN_TOOLS = { walls: 'Walls', openings: 'Openings', holes: 'Cutouts', marks: 'Marks' } as const;

export type PlanTool = keyof typeof PLAN_TOOLS;

/** The tool for a part of the plan as an address or a finding names it; the walls for any other. */
export const planTool = (part: string | undefined): PlanTool =>
  part === 'openings' || part === 'holes' || part === 'marks' ? part : 'walls';
