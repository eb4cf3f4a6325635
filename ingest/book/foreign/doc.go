// Package foreign reads rows out of a sheet that was not made for the logbook: an export of somebody's spreadsheet, in its own
// headings, separator, encoding, decimal mark and order of dates.
//
// Import takes a sheet into a file of the logbook, all of its rows or none, as one addition that one undo takes back; Rehearse
// does all but the writing. What it finds out, and what it takes that from, is in the Report:
//
//   - encoding: UTF-8 and UTF-16 by their marks or their bytes, else Windows-1252;
//   - separator: comma, semicolon, tab or bar, the one that splits the headings into the most that are understood;
//   - columns: by the words of headings.txt, with the unit in the heading, in a row of units below it or in the cell; without
//     any, the unit of the logbook's own column;
//   - decimal mark and order of day and month: one for the whole sheet, by cells that can be read in one way only, else by
//     what a vehicle can do (a reading that empties a lake at one stop, or drives back in time, does not fit);
//   - which lines are rows: blank ones, headings again, totals, and notes between are passed over and counted.
//
// Where two readings fit it refuses, names the line and says what to tell it; it never takes the likelier one. Rows that the
// log already has are recognised and passed over. Cells keep their digits: 1.234,50 becomes 1234.50, and nothing is rounded but
// a cost that is reckoned from a price.
//
// The sheet is held in memory, at most 256 MiB of it, and its rows pass one at a time. Text stays text, whatever it
// begins with: package book guards it on writing.
package foreign
