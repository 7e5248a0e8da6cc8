// Package seats advises what size to choose: the class of a seat for a rolling bearing,
// and the clearance of a plain bearing, by general recommendations. It advises; the
// drawing, and who made the bearing, decide.
package seats
