/** What a source may say was going on. By itself, so that a thread that reads marks loads no schema. */
export const phaseMarks = ['pressure-test', 'pull-down', 'hold', 'isolation', 'break', 'weigh-in', 'run'] as const;
