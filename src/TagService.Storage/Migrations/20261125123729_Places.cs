using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Places : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "locations",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    name = table.Column<string>(type: "text", nullable: false),
                    aliases = table.Column<string[]>(type: "text[]", nullable: false),
                    parent_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    setting = table.Column<string>(type: "text", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_locations", x => x.id);
                    table.CheckConstraint("ck_locations_id", "length(id) BETWEEN 1 AND 100");
                    table.CheckConstraint("ck_locations_parent", "parent_id <> id");
                    table.ForeignKey(
                        name: "fk_locations_locations_parent_id",
                        column: x => x.parent_id,
                        principalTable: "locations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "numbering_rules",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    scheme = table.Column<string>(type: "text", nullable: false),
                    company_prefix = table.Column<string>(type: "text", nullable: false),
                    filter = table.Column<int>(type: "integer", nullable: false),
                    class_reference = table.Column<string>(type: "text", nullable: false),
                    leading = table.Column<string>(type: "text", nullable: false),
                    digits = table.Column<int>(type: "integer", nullable: true),
                    first_number = table.Column<long>(type: "bigint", nullable: false),
                    next_number = table.Column<long>(type: "bigint", nullable: false),
                    last_number = table.Column<long>(type: "bigint", nullable: false),
                    handed_out_through = table.Column<long>(type: "bigint", nullable: true),
                    is_default = table.Column<bool>(type: "boolean", nullable: false),
                    note = table.Column<string>(type: "text", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_numbering_rules", x => x.id);
                    table.CheckConstraint("ck_numbering_rules_handed_out", "handed_out_through >= first_number AND handed_out_through < next_number AND handed_out_through <= last_number");
                    table.CheckConstraint("ck_numbering_rules_id", "length(id) BETWEEN 1 AND 100");
                    table.CheckConstraint("ck_numbering_rules_numbers", "first_number >= 0 AND first_number <= next_number AND last_number <= 9007199254740991");
                    table.CheckConstraint("ck_numbering_rules_prefix", "company_prefix ~ '^[0-9]{6,12}$'");
                });

            migrationBuilder.CreateTable(
                name: "tag_batches",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tag_class_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    supplier_lot = table.Column<string>(type: "text", nullable: true),
                    quantity = table.Column<int>(type: "integer", nullable: true),
                    price = table.Column<decimal>(type: "numeric(18,4)", precision: 18, scale: 4, nullable: true),
                    currency = table.Column<string>(type: "char(3)", nullable: true),
                    received_on = table.Column<DateOnly>(type: "date", nullable: true),
                    epc_scheme = table.Column<string>(type: "text", nullable: true),
                    epc_prefix = table.Column<string>(type: "text", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tag_batches", x => x.id);
                    table.CheckConstraint("ck_tag_batches_id", "length(id) BETWEEN 1 AND 100");
                    table.CheckConstraint("ck_tag_batches_price_with_currency", "(price IS NULL) = (currency IS NULL)");
                    table.CheckConstraint("ck_tag_batches_quantity", "quantity > 0");
                });

            migrationBuilder.CreateTable(
                name: "location_names",
                columns: table => new
                {
                    folded = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    location_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    is_alias = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_location_names", x => new { x.location_id, x.folded });
                    table.ForeignKey(
                        name: "fk_location_names_locations_location_id",
                        column: x => x.location_id,
                        principalTable: "locations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "read_points",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    name = table.Column<string>(type: "text", nullable: false),
                    aliases = table.Column<string[]>(type: "text[]", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    location_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    reader_name = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    antenna = table.Column<int>(type: "integer", nullable: true),
                    reader_kind = table.Column<string>(type: "text", nullable: true),
                    eirp_dbm = table.Column<double>(type: "double precision", nullable: true),
                    heartbeat_seconds = table.Column<int>(type: "integer", nullable: true),
                    sweep_hours = table.Column<double>(type: "double precision", nullable: true),
                    reference_tags = table.Column<string[]>(type: "text[]", nullable: false),
                    note = table.Column<string>(type: "text", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_read_points", x => x.id);
                    table.CheckConstraint("ck_read_points_antenna_of_reader", "antenna IS NULL OR reader_name IS NOT NULL");
                    table.CheckConstraint("ck_read_points_id", "length(id) BETWEEN 1 AND 100");
                    table.CheckConstraint("ck_read_points_kind", "kind IN ('area', 'cabinet', 'walked', 'passage')");
                    table.CheckConstraint("ck_read_points_sweeps_of_kind", "(kind IN ('area', 'cabinet')) = (sweep_hours IS NOT NULL)");
                    table.ForeignKey(
                        name: "fk_read_points_locations_location_id",
                        column: x => x.location_id,
                        principalTable: "locations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "read_point_names",
                columns: table => new
                {
                    folded = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    read_point_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    is_alias = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_read_point_names", x => new { x.read_point_id, x.folded });
                    table.ForeignKey(
                        name: "fk_read_point_names_read_points_read_point_id",
                        column: x => x.read_point_id,
                        principalTable: "read_points",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_changes_kind_id",
                table: "changes",
                columns: new[] { "kind", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_location_names_folded",
                table: "location_names",
                column: "folded");

            migrationBuilder.CreateIndex(
                name: "ux_location_names_alias",
                table: "location_names",
                column: "folded",
                unique: true,
                filter: "is_alias");

            migrationBuilder.CreateIndex(
                name: "ix_locations_parent_id",
                table: "locations",
                column: "parent_id");

            migrationBuilder.CreateIndex(
                name: "ux_numbering_rules_default",
                table: "numbering_rules",
                column: "is_default",
                unique: true,
                filter: "is_default");

            migrationBuilder.CreateIndex(
                name: "ix_read_point_names_folded",
                table: "read_point_names",
                column: "folded");

            migrationBuilder.CreateIndex(
                name: "ux_read_point_names_alias",
                table: "read_point_names",
                column: "folded",
                unique: true,
                filter: "is_alias");

            migrationBuilder.CreateIndex(
                name: "ix_read_points_location_id",
                table: "read_points",
                column: "location_id");

            migrationBuilder.CreateIndex(
                name: "ux_read_points_reader_antenna",
                table: "read_points",
                columns: new[] { "reader_name", "antenna" },
                unique: true,
                filter: "reader_name IS NOT NULL")
                .Annotation("Npgsql:NullsDistinct", false);

            migrationBuilder.CreateIndex(
                name: "ix_tag_batches_tag_class_id_id",
                table: "tag_batches",
                columns: new[] { "tag_class_id", "id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "location_names");

            migrationBuilder.DropTable(
                name: "numbering_rules");

            migrationBuilder.DropTable(
                name: "read_point_names");

            migrationBuilder.DropTable(
                name: "tag_batches");

            migrationBuilder.DropTable(
                name: "read_points");

            migrationBuilder.DropTable(
                name: "locations");

            migrationBuilder.DropIndex(
                name: "ix_changes_kind_id",
                table: "changes");
        }
    }
}
