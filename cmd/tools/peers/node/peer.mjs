// Runs json-rules-engine for the peer benchmark, which starts it and speaks the protocol of ../serve over its standard
// input and output, a line of JSON for each request and each reply.
//
// First hit: every rule has a priority of its own, falling, and the first success stops the engine; that took half the time
// of asking all rules. The clauses of a rule have falling priorities too, so that the first that fails ends the rule.
import { createInterface } from 'node:readline'
import { Engine } from 'json-rules-engine'

const none = -1
const firstFlag = 12

let engine, points, inputs, answer, last

const operators = { 'at-least': ['greaterThanInclusive', 'lo'], 'at-most': ['lessThanInclusive', 'hi'], is: ['equal', 'lo'] }

function conditions(rule) {
  const clauses = rule.flatMap((c) =>
    c.op === 'between' ? [{ ...c, op: 'at-least' }, { ...c, op: 'at-most' }] : [c])
  return clauses.map((c, i) => {
    const [operator, end] = operators[c.op]
    const value = c.fact >= firstFlag ? c[end] === 1 : c[end]
    return { fact: `f${c.fact}`, operator, value, priority: clauses.length - i }
  })
}

function facts(point) {
  const out = {}
  point.forEach((v, f) => { out[`f${f}`] = f >= firstFlag ? v === 1 : v })
  return out
}

async function decide(input) {
  answer = none
  last = await engine.run(input)
  return answer
}

const ways = {
  ready: (i) => decide(inputs[i]),
  fresh: (i) => decide(facts(points[i])),
  explained: async (i) => {
    const got = await decide(inputs[i])
    if (last.results.length + last.failureResults.length === 0) throw new Error(`point ${i} has no explanation`)
    return got
  },
}

function load({ rules, points: at }) {
  const began = process.hrtime.bigint()
  engine = new Engine()
  rules.forEach((rule, i) => engine.addRule({
    name: `r${i}`,
    priority: rules.length - i,
    conditions: { all: conditions(rule) },
    event: { type: 'hit', params: { place: i } },
  }))
  engine.on('success', (event) => {
    answer = event.params.place
    engine.stop()
  })
  points = at
  inputs = at.map(facts)
  return { ns: since(began), ways: Object.keys(ways), version: `Node ${process.version.slice(1)}` }
}

async function run({ way, ns }) {
  const ask = ways[way]
  if (!ask) throw new Error(`the engine cannot be asked ${way}`)
  const answers = new Array(points.length)
  globalThis.gc?.()
  const began = process.hrtime.bigint()
  let passes = 0
  let took = 0
  do {
    for (let i = 0; i < answers.length; i++) answers[i] = await ask(i)
    passes++
    took = since(began)
  } while (took < ns)
  return { ns: took, passes, answers }
}

const since = (began) => Number(process.hrtime.bigint() - began)

for await (const line of createInterface({ input: process.stdin })) {
  let reply
  try {
    const request = JSON.parse(line)
    reply = request.load ? load(request.load) : await run(request.run)
  } catch (err) {
    reply = { error: String(err.message ?? err) }
  }
  process.stdout.write(JSON.stringify(reply) + '\n')
}
