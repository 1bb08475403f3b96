import { expect, test } from "vitest";
import { Memory } from "../../grammar/memory";

test("what is remembered of a thing is found again, replaced, and kept apart from other things and memories", () => {
  const sizes = new Memory<object, number>();
  const names = new Memory<object, string>();
  const [one, other] = [{}, Object.freeze([1, 2])];
  expect(sizes.get(one)).toBeUndefined();
  sizes.set(one, 1);
  sizes.set(other, 2);
  names.set(one, "one");
  sizes.set(one, 3);
  expect([sizes.get(one), sizes.get(other), names.get(one), names.get(other)]).toEqual([
    3,
    2,
    "one",
    undefined,
  ]);
});

test("a thing looks the same with what is remembered of it, and a copy knows nothing", () => {
  const memory = new Memory<object, number>();
  const thing = { a: 1 };
  memory.set(thing, 5);
  expect(Reflect.ownKeys(thing)).toEqual(["a"]);
  expect(JSON.stringify(thing)).toBe('{"a":1}');
  expect(memory.get({ ...thing })).toBeUndefined();
});

test("nothing can be remembered as not being there, and still is remembered", () => {
  const memory = new Memory<object, undefined | number>();
  const thing = {};
  memory.set(thing, 1);
  memory.set(thing, undefined);
  expect(memory.get(thing)).toBeUndefined();
});
