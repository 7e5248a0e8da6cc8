package cut

import "testing"

func BenchmarkForceShallow(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Force(0.2, 0.1, 60)
	}
}
func BenchmarkForceDeep(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Force(2, 0.1, 60)
	}
}
func BenchmarkPush(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Push(0.2, 0.1, 60)
	}
}
func BenchmarkRegen(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Regen(0.2, 0.1, 60)
	}
}
func BenchmarkNew(b *testing.B) {
	for b.Loop() {
		mustNew(b, iron, plainEdge(0.8, 75))
	}
}
func BenchmarkRa(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Ra(0.2, 0.1, 60)
	}
}
func BenchmarkLeastFeed(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.LeastFeed(0.2)
	}
}
