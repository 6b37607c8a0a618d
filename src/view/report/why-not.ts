/**
 * Why was this plan not taken? Said by comparison with the one that was, from
 * the same figures as the table, so that no reason is made up.
 */
import { printMoney, type ReworkPlan } from '../../engine.ts';
import { words } from '../words/words.ts';

/** Best protected first. */
const PROTECTION = ['kept', 'none', 'less', 'new', 'bare'] as const;

/** "8 minutes longer, leaves less protection"; says so where nothing speaks against it. */
export function whyNot(other: ReworkPlan, taken: ReworkPlan): string {
  const reasons = words().reportOtherWhy;
  const found: string[] = [];
  if (PROTECTION.indexOf(other.exposure) > PROTECTION.indexOf(taken.exposure))
    found.push(reasons.lessProtected);
  if (other.cures < taken.cures) found.push(reasons.partOnly);
  if (other.successShare < taken.successShare - 0.005) found.push(reasons.lessSure);
  if (other.riskMinutes > taken.riskMinutes + 0.5) found.push(reasons.riskier);
  const longer = Math.round(other.minutes) - Math.round(taken.minutes);
  if (longer >= 1) found.push(reasons.slower(longer));
  const dearer = other.price.total - taken.price.total;
  if (dearer >= 0.01) found.push(reasons.dearer(printMoney(other.price.currency, dearer)));
  return found.length === 0 ? reasons.asGood : found.join(', ');
}
