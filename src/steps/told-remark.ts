import type { CylinderRemark } from '../accounts/cylinder-account.ts';
import type { CylinderWeighing } from '../accounts/cylinder-record.ts';
import type { PeopleNames } from './people-names.ts';

/** The day on which a remark falls, since 1970. */
export function dayOfRemark(remark: CylinderRemark): number {
  if ('gap' in remark) return remark.gap.day;
  return 'weighing' in remark ? remark.weighing.day : remark.day;
}

/** A remark in which people and crews go by code. */
export function codedRemark(remark: CylinderRemark, names: PeopleNames): CylinderRemark {
  const coded = (weighing: CylinderWeighing): CylinderWeighing => ({
    ...weighing,
    technicianId: weighing.technicianId === null ? null : names.technician(weighing.technicianId),
    crewId: weighing.crewId === null ? null : names.crew(weighing.crewId),
  });
  const codedOrNone = (weighing: CylinderWeighing | null) => (weighing === null ? null : coded(weighing));
  if ('gap' in remark) {
    const { before, after } = remark.gap;
    return { ...remark, gap: { ...remark.gap, before: codedOrNone(before), after: codedOrNone(after) } };
  }
  return 'weighing' in remark ? { ...remark, weighing: coded(remark.weighing) } : remark;
}
