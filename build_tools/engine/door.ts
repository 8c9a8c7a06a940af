// door.ts: calls Python's door in a bare runtime: texts in, one text out. Knows C functions; knows no calculator.
import type { Runtime } from "./minimal_runtime";

export type Door = (name: string, inputs: string, wanted: string, prefix: string) => string;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** @param address where the function `calculators.door.answer` lies in the runtime's memory */
export function openDoor(runtime: Runtime, address: number): Door {
  const values = runtime._malloc(16);
  const size = runtime._malloc(4);
  return (...texts) => {
    const objects = texts.map((text) => textObject(runtime, text));
    objects.forEach((object, i) => (runtime.HEAPU32[(values >>> 2) + i] = object));
    const result = runtime._PyObject_Vectorcall(address, values, objects.length, 0);
    for (const object of objects) runtime._Py_DecRef(object);
    if (!result) {
      runtime._PyErr_Clear();
      throw new Error("Python gave no answer"); // out of memory: the door itself catches all else
    }
    const start = runtime._PyUnicode_AsUTF8AndSize(result, size);
    const bytes = runtime.HEAPU32[size >>> 2] ?? 0;
    const answer = decoder.decode(runtime.HEAPU8.subarray(start, start + bytes));
    runtime._Py_DecRef(result);
    return answer;
  };
}

/**
 * A function that hands a calculator's bundle to Python, uncompressed.
 * @param address where the function that takes it lies in the runtime's memory
 */
export function openTake(runtime: Runtime, address: number): (bundle: Uint8Array) => void {
  return (bundle) => {
    const at = runtime._malloc(bundle.length);
    runtime.HEAPU8.set(bundle, at);
    const object = runtime._PyBytes_FromStringAndSize(at, bundle.length);
    runtime._free(at);
    const values = runtime._malloc(4);
    runtime.HEAPU32[values >>> 2] = object;
    const result = object && runtime._PyObject_Vectorcall(address, values, 1, 0);
    runtime._free(values);
    if (!result) throw new Error("Python cannot take up the calculator");
    runtime._Py_DecRef(object);
    runtime._Py_DecRef(result);
  };
}

function textObject(runtime: Runtime, text: string): number {
  const bytes = encoder.encode(text);
  const at = runtime._malloc(bytes.length + 1);
  runtime.HEAPU8.set(bytes, at);
  const object = runtime._PyUnicode_FromStringAndSize(at, bytes.length);
  runtime._free(at);
  if (!object) throw new Error("Python has no memory left");
  return object;
}
