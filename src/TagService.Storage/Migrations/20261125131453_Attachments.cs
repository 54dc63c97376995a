using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Attachments : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "tags",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    identity = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    epc_hex = table.Column<string>(type: "text", nullable: true),
                    scheme = table.Column<string>(type: "text", nullable: true),
                    tid_hex = table.Column<string>(type: "text", nullable: true),
                    first_recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tags", x => x.id);
                    table.CheckConstraint("ck_tags_identity", "length(identity) BETWEEN 1 AND 300");
                });

            migrationBuilder.CreateTable(
                name: "attachments",
                columns: table => new
                {
                    tag_id = table.Column<long>(type: "bigint", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tag_class_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    method_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    start_not_before = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    start_not_after = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    end_not_before = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    end_not_after = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    end_reason = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    is_void = table.Column<bool>(type: "boolean", nullable: false),
                    taken_over = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    labour_minutes = table.Column<double>(type: "double precision", nullable: true),
                    tag_batch_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    fitter_id = table.Column<string>(type: "text", nullable: true),
                    measured_range_m = table.Column<double>(type: "double precision", nullable: true),
                    answered_at_m = table.Column<double>(type: "double precision", nullable: true),
                    silent_at_m = table.Column<double>(type: "double precision", nullable: true),
                    check_eirp_dbm = table.Column<double>(type: "double precision", nullable: true),
                    check_region = table.Column<string>(type: "text", nullable: true),
                    check_reader_kind = table.Column<string>(type: "text", nullable: true),
                    check_site = table.Column<string>(type: "text", nullable: true),
                    photo_reference = table.Column<string>(type: "text", nullable: true),
                    tid_hex = table.Column<string>(type: "text", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    started_by_line = table.Column<Guid>(type: "uuid", nullable: true),
                    ended_by_line = table.Column<Guid>(type: "uuid", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_attachments", x => new { x.tag_id, x.id });
                    table.CheckConstraint("ck_attachments_end", "end_not_before <= end_not_after");
                    table.CheckConstraint("ck_attachments_end_with_reason", "end_reason IS NOT NULL OR (end_not_before IS NULL AND end_not_after IS NULL AND NOT is_void)");
                    table.CheckConstraint("ck_attachments_labour_minutes", "labour_minutes BETWEEN 0 AND 10000");
                    table.CheckConstraint("ck_attachments_start", "start_not_before <= start_not_after");
                    table.CheckConstraint("ck_attachments_start_before_end", "start_not_before <= end_not_after");
                    table.ForeignKey(
                        name: "fk_attachments_assets_asset_id",
                        column: x => x.asset_id,
                        principalTable: "assets",
                        principalColumn: "asset_id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_attachments_tags_tag_id",
                        column: x => x.tag_id,
                        principalTable: "tags",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_attachments_asset_id",
                table: "attachments",
                column: "asset_id");

            migrationBuilder.CreateIndex(
                name: "ix_attachments_id",
                table: "attachments",
                column: "id");

            migrationBuilder.CreateIndex(
                name: "ix_attachments_tag_batch_id",
                table: "attachments",
                column: "tag_batch_id",
                filter: "tag_batch_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ux_attachments_open",
                table: "attachments",
                column: "tag_id",
                unique: true,
                filter: "end_reason IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_tags_identity",
                table: "tags",
                column: "identity",
                unique: true);

            // Two attachments of one tag that certainly hold at one time; the same bounds as AttachmentSpan has. Both ranges need no extension.
            migrationBuilder.Sql(
                """
                ALTER TABLE attachments ADD CONSTRAINT ex_attachments_certain_periods EXCLUDE USING gist (
                  int8range(tag_id, tag_id, '[]') WITH &&,
                  (CASE
                     WHEN end_reason IS NULL THEN tstzrange(coalesce(start_not_after, greatest(start_not_before, recorded_at)), NULL)
                     WHEN start_not_after < end_not_before THEN tstzrange(start_not_after, end_not_before)
                     ELSE 'empty'::tstzrange
                   END) WITH &&)
                WHERE (NOT is_void)
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "attachments");

            migrationBuilder.DropTable(
                name: "tags");
        }
    }
}
