// Package vocabulary turns the contract's declarations of facts, words and results into the schema that the rule engine
// works on, so that a fact is declared once: in proto/glossladder/v1.
//
// It owns the reading of the contract's own field options and of the comments that give meanings. It decides nothing and
// holds no rule. It is an adapter: the only room besides service/rpc that knows both the contract and a domain room.
package vocabulary
