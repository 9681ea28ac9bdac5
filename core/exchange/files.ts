import { type Plan, parsePlan, parseShop, planSchema, type Result, type Shop, shopSchema } from '../shop';
import { readJson, writeJson } from './json';

/** The text of a shop file as a shop, or what is wrong with it and where. */
export function readShopText(text: string): Result<Shop> {
  const json = readJson(text, 'shop file');
  return json.ok ? parseShop(json.value) : json;
}

/** The text of a shop file. The same shop gives the same bytes, whatever order its fields came in. */
export function writeShopText(shop: Shop): string {
  return writeJson(shopSchema.parse(shop));
}

/** The text of a plan file as a plan, or what is wrong with it and where. */
export function readPlanText(text: string): Result<Plan> {
  const json = readJson(text, 'plan file');
  return json.ok ? parsePlan(json.value) : json;
}

/** The text of a plan file. The same plan gives the same bytes. */
export function writePlanText(plan: Plan): string {
  return writeJson(planSchema.parse(plan));
}
