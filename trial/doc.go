// Package trial plays a job's settings through a year, beside what else might be set:
// it makes the house and the plant of package year from a solved job and from what a
// survey does not ask, and says what it assumed.
//
// [New] prepares a job, [Trial.Run] plays it, [Trial.Fail] lets the boiler stop on the
// design night. Fan coils are not played, and a job with one is refused.
package trial
