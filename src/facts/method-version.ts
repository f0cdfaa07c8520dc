/** Grows whenever the same readings would give other facts; older facts are then made anew. */
export const methodVersion = 6;
