import { defineModel, type Model } from "../../engine/internal.ts";

/** Where a module lies, and the name under which it exports the model. */
export interface ModuleAddress {
  readonly url: string;
  readonly exportName: string;
}

/** The model that a module exports. @throws {Error} a module that cannot be loaded, or exports none under that name */
export async function modelAt({ url, exportName }: ModuleAddress): Promise<Model> {
  const module = (await import(url).catch((cause: unknown) => {
    const message = cause instanceof Error ? cause.message : String(cause);
    throw new Error(`${url}: the model's module could not be loaded: ${message}`, { cause });
  })) as Readonly<Record<string, unknown>>;
  const found = module[exportName];
  if (isModel(found)) return defineModel(found);
  const exported = Object.keys(module).join(", ");
  throw new Error(
    `${url}: got ${exported === "" ? "a module without exports" : `exports ${exported}`}; ` +
      `expected a model made by defineModel under the name ${exportName}`,
  );
}

const isModel = (value: unknown): value is Model =>
  typeof value === "object" && value !== null && typeof (value as { evaluate?: unknown }).evaluate === "function";
